import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { checkNote } from '../../server/src/checks/check.ts';
import { drawSeed } from '../support/seed.ts';
import { fencedBlock } from './generators/bench-note.ts';
import { damaged, wordSalad } from './generators/damage.ts';
import { type Draw, pick } from './generators/draw.ts';
import { HOSTILE, SENTINEL, SENTINEL_LINK, UNREADABLE } from './generators/hostile-note.ts';
import { linkOf } from './generators/judged-note.ts';
import { drawWorkedList, drawWorkedSpherometer } from './generators/worked-bench.ts';
import { drawWorkedPowers } from './generators/worked-derived.ts';
import { drawWorkedLetters, proseClaim } from './generators/worked-question.ts';
import { drawWorkedScrew } from './generators/worked-screw.ts';
import { drawWorkedVernier } from './generators/worked-vernier.ts';

// What must hold of any text at all (the design's own promise: nothing may crash, hang, or silence another block).
drawSeed('hostile');

/** The note comes back checked, its places lie in the text and in order, and what follows is checked as if alone. */
function requireSafe(text: string, withSentinel: boolean): void {
  const whole = withSentinel ? `${text}\n\n${SENTINEL}\n` : text;
  const note = checkNote(whole);
  const starts = note.findings.map(finding => finding.span.start);
  expect(
    starts.toSorted((a, b) => a - b),
    whole.slice(0, 4000),
  ).toEqual(starts);
  for (const { span, message, fixes } of note.findings) {
    const spans = [span, ...fixes.flatMap(fix => fix.edits.map(edit => edit.span))];
    const inside = spans.every(({ start, end }) => 0 <= start && start <= end && end <= whole.length);
    expect(inside, `${message}\n${whole.slice(0, 4000)}`).toBe(true);
    expect(message.trim(), whole.slice(0, 4000)).not.toBe('');
  }
  if (!withSentinel) return;
  const own = note.findings.filter(finding => finding.span.start >= text.length);
  const told = own.map(finding => [finding.rule, finding.block, linkOf(whole, finding)]);
  expect(told, whole.slice(0, 4000)).toEqual([['wrong-value', 'sentinel', SENTINEL_LINK]]);
}

describe.each(Object.entries(HOSTILE))('%s', (_, notes) => {
  test.each(Object.entries(notes))('%s', (_, text) => requireSafe(text, true));
});

test.each(Object.entries(UNREADABLE))('what is not read for its length is said: %s', (_, text) => {
  const note = checkNote(`${text}\n\n${SENTINEL}\n`);
  const limits = note.findings.filter(finding => finding.rule === 'limit' && finding.block === null);
  expect(note.blocks.some(block => block.name === 'sentinel') || limits.length > 0).toBe(true);
});

const GOOD: readonly ((draw: Draw) => readonly string[])[] = [
  draw => drawWorkedVernier(draw, 'hostile').lines,
  draw => drawWorkedScrew(draw, 'hostile').lines,
  draw => inner(drawWorkedSpherometer(draw, 'hostile')),
  draw => inner(drawWorkedList(draw, 'hostile')),
  draw => inner(drawWorkedPowers(draw, 'hostile')),
  draw => inner(drawWorkedLetters(draw, 'hostile')),
];

const inner = (lines: readonly string[]) => lines.slice(1, -1);

describe('random damage', () => {
  test('inside a block leaves the other blocks alone', () => {
    fc.assert(
      fc.property(fc.gen(), draw => {
        const good = pick(draw, GOOD)(draw).join('\n');
        requireSafe(fencedBlock([damaged(draw, good)], 'hostile', '~~~~~~~~~~'), true);
      }),
      { numRuns: 500 },
    );
  });

  test('anywhere in a note is survived', () => {
    fc.assert(
      fc.property(fc.gen(), draw => {
        const vernier = drawWorkedVernier(draw, 'hostile');
        const good = [fencedBlock(vernier.lines, 'hostile'), proseClaim(vernier), SENTINEL].join('\n\n');
        requireSafe(damaged(draw, good), false);
      }),
      { numRuns: 250 },
    );
  });

  test('words of the language in no order are survived', () => {
    fc.assert(
      fc.property(fc.gen(), draw => {
        requireSafe(fencedBlock([wordSalad(draw)], 'hostile', '~~~~~~~~~~'), true);
      }),
      { numRuns: 400 },
    );
  });
});
