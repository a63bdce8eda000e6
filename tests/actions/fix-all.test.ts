import { describe, expect, it } from 'vitest';
import { fixAllEdits, mendedNote } from '../../server/src/actions/fix-all.ts';
import { withEdits } from '../../server/src/actions/settled-edits.ts';
import { checkNote } from '../../server/src/checks/check.ts';
import type { CheckedNote } from '../../server/src/checks/finding.ts';
import { aFinding } from '../support/fake-check.ts';
import { DRESSES, NOTES_TO_MEND, noteText } from '../support/typed-notes.ts';

const fixAll = (text: string): string => withEdits(text, fixAllEdits(text));

describe('all sure fixes of', () => {
  it.each(NOTES_TO_MEND)('%s', path => {
    const text = noteText(path);
    const mended = fixAll(text);
    expect(mendedNote(text, checkNote).end).toBe('mended');
    expect(fixAllEdits(mended)).toEqual([]);
    // A quote, a list, the line ends of another system are kept, and change nothing about what is mended.
    for (const [name, dress] of path.startsWith('tests/slips/') ? [] : Object.entries(DRESSES))
      expect(fixAll(dress(text)), name).toBe(dress(mended));
  });
});

it('touches nothing but what it mends', () => {
  const text = noteText('examples/careless/01-calipers.md');
  const edits = fixAllEdits(text);
  expect(edits.length).toBeGreaterThan(3);
  for (const { span, newText } of edits) {
    expect(text.slice(span.start, span.end)).not.toBe(newText);
    expect(span.end - span.start).toBeLessThan(80);
  }
});

/** Finds every word of a list and surely writes the next one for it. */
function turning(words: readonly string[]) {
  return (text: string): CheckedNote => ({
    blocks: [],
    findings: [...text.matchAll(/\w+/g)].flatMap(({ 0: word, index }) => {
      const at = words.indexOf(word);
      const newText = words[at + 1];
      if (at === -1 || newText === undefined) return [];
      const span = { start: index, end: index + word.length };
      return [aFinding({ span, fixes: [{ title: 'Go on', sure: true, edits: [{ span, newText }] }] })];
    }),
  });
}

it('goes on until nothing is left, and tells the edits of the note as it was', () => {
  const { text, edits, fixes, end } = mendedNote('a one b one c', turning(['one', 'two', 'three', '']));
  // Three rounds of two.
  expect([text, fixes, end]).toEqual(['a  b  c', 6, 'mended']);
  expect(edits).toEqual([
    { span: { start: 2, end: 5 }, newText: '' },
    { span: { start: 8, end: 11 }, newText: '' },
  ]);
});

it('says nothing of what came back as it was', () => {
  expect(mendedNote('x up y', turning(['up', 'down', 'over', 'done'])).edits).toEqual([
    { span: { start: 2, end: 4 }, newText: 'done' },
  ]);
});

it('stops where a ring begins, so that doing it again changes nothing', () => {
  const ring = turning(['start', 'left', 'right', 'left']);
  const once = mendedNote('start', ring);
  expect([once.text, once.end]).toEqual(['left', 'ring']);
  expect(mendedNote(once.text, ring)).toEqual({ text: 'left', edits: [], fixes: 0, end: 'ring' });
});

it('ends after so many rounds', () => {
  const words = Array.from({ length: 40 }, (_, index) => `w${index}`);
  expect(mendedNote('w0', turning(words))).toMatchObject({ text: 'w12', end: 'rounds' });
});

it('lets the first of two fixes that meet go before', () => {
  const check = (text: string): CheckedNote => ({
    blocks: [],
    findings: text.includes('ab')
      ? ['1', '2'].map((newText, index) => {
          const span = { start: index, end: index + 1 };
          return aFinding({ span, fixes: [{ title: 'Write', sure: true, edits: [{ span, newText }] }] });
        })
      : [],
  });
  expect(mendedNote('ab', check).text).toBe('1b');
});
