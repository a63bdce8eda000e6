import { expect, test } from 'vitest';
import { checkNote } from '../../server/src/checks/check.ts';

// A line that is read as its fix would write it has no text of its own: what is wrong inside has no place there, so a
// fix for it would write over the whole line, or between places that do not follow each other.
test('choices on one line are only parted by a fix, and what is wrong in one of them offers none', () => {
  const line = '(A) 5,62 mm  (B) 5.59 7 cm';
  const text = `\`\`\`measurement q\nfind: observed reading\n${line}\n\`\`\`\n`;
  const { findings } = checkNote(text);
  const told = findings.filter(({ span }) => text.slice(span.start, span.end) === line);
  expect(told.map(({ rule }) => rule).sort()).toEqual([
    'ambiguous-expression',
    'not-plain',
    'unreadable-line',
  ]);
  const edits = told.flatMap(({ fixes }) => fixes.flatMap(fix => fix.edits));
  expect(edits.map(({ newText }) => newText)).toEqual(['option A: 5,62 mm\noption B: 5.59 7 cm']);
});

test('a fix that writes a line anew keeps raised digits as powers', () => {
  const text = '```measurement q\na: 12.0 cm ± 0.1 cm\npercentage error = 0.3 cm²/(36 cm²) × 100 %\n```\n';
  const edits = checkNote(text).findings.flatMap(({ fixes }) => fixes.flatMap(fix => fix.edits));
  expect(edits[0]?.newText).toBe('percentage error of a = 0.3 cm^2/(36 cm^2) × 100 %');
});
