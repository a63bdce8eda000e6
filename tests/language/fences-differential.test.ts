import fc from 'fast-check';
import { expect, test } from 'vitest';
import { readNote } from '../../server/src/language/fences.ts';
import { drawSeed } from '../support/seed.ts';
import { edited, noteEdit, pitfallNote } from './pitfall-notes.ts';
import { expectAsRemark } from './remark-reference.ts';

// Source of what is right: remark-parse 11, reading the whole note.

drawSeed('fences-differential');

/** Where the Markdown begins below front matter (Pandoc manual, yaml_metadata_block), told by lines alone. */
function belowFrontMatter(note: string): number {
  const bom = note.startsWith('\uFEFF') ? 1 : 0;
  const lines = note.slice(bom).split(/(?<=\r\n|\n|\r(?!\n))/);
  const isRule = (line: string, rule: RegExp) => rule.test(line.replace(/[ \t\r\n]+$/, ''));
  const close = lines.findIndex((line, index) => 0 < index && isRule(line, /^(?:---|\.\.\.)$/));
  const opens = /^---[ \t]*[\r\n]/.test(lines[0] ?? '') && /[^ \t\r\n]/.test(lines[1] ?? '');
  return opens && 0 < close ? bom + lines.slice(0, close + 1).join('').length : bom;
}

test('a note cut into stretches has the blocks that remark finds in the whole of it', () => {
  let blocks = 0;
  fc.assert(
    fc.property(pitfallNote, note => {
      const structure = readNote(note);
      expectAsRemark(note, structure, belowFrontMatter(note));
      blocks += structure.fences.length;
    }),
    { numRuns: 1000 },
  );
  expect(blocks).toBeGreaterThan(300);
});

test('every line of a block stands in the note where it says', () => {
  fc.assert(
    fc.property(pitfallNote, note => {
      for (const fence of readNote(note).fences) {
        expect(note.slice(fence.infoSpan.start, fence.infoSpan.end)).toBe(fence.info);
        expect(note.slice(fence.span.start, fence.infoSpan.start)).toMatch(/^(?:`{3,}|~{3,})[ \t]*$/);
        let below = fence.infoSpan.end;
        for (const line of fence.lines) {
          expect(note.slice(line.start, line.start + line.text.length)).toBe(line.text);
          expect(line.text).not.toMatch(/[\r\n]/);
          expect(note.slice(below, line.start)).toMatch(/^[ \t]*(?:\r\n|\r|\n)[ \t>]*$/);
          expect(line.prefix).toMatch(/^[ \t>]*$/);
          below = line.start + line.text.length;
        }
        expect(fence.closingEnd).toBe(fence.closed ? fence.span.end : null);
      }
    }),
    { numRuns: 800 },
  );
});

test('the same holds after every edit', () => {
  fc.assert(
    fc.property(pitfallNote, fc.array(noteEdit, { minLength: 1, maxLength: 5 }), (note, edits) => {
      let text = note;
      for (const edit of edits) {
        text = edited(text, edit);
        expectAsRemark(text, readNote(text), belowFrontMatter(text));
      }
    }),
    { numRuns: 200 },
  );
});
