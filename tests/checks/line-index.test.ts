import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lineBounds, lineIndex, placeAt } from '../../server/src/checks/line-index.ts';

describe('lines of a note', () => {
  // CommonMark 0.31.2, section 2.1: a line ending is LF, a CR without LF, or CRLF.
  it('end with CR, LF or CRLF', () => {
    const index = lineIndex('a\nb\rc\r\nd');
    expect([0, 2, 4, 7].map(offset => placeAt(index, offset))).toEqual([
      { line: 1, column: 1 },
      { line: 2, column: 1 },
      { line: 3, column: 1 },
      { line: 4, column: 1 },
    ]);
    expect([1, 2, 3, 4].map(line => lineBounds(index, line))).toEqual([
      { start: 0, end: 1 },
      { start: 2, end: 3 },
      { start: 4, end: 5 },
      { start: 7, end: 8 },
    ]);
  });

  it('count columns in UTF-16 units, from 1', () => {
    // U+1D6FC is two units, as the Language Server Protocol counts positions by default.
    const index = lineIndex('\u{1d6fc} = 2');
    expect(placeAt(index, '\u{1d6fc} = '.length)).toEqual({ line: 1, column: 6 });
  });

  it('do not count a byte-order mark', () => {
    const index = lineIndex('\ufeffab\ncd');
    expect(placeAt(index, 2)).toEqual({ line: 1, column: 2 });
    expect(placeAt(index, 0)).toEqual({ line: 1, column: 1 });
    expect(placeAt(index, 4)).toEqual({ line: 2, column: 1 });
  });

  it('take an offset outside the note for its nearest end', () => {
    const index = lineIndex('ab\n');
    expect(placeAt(index, -5)).toEqual({ line: 1, column: 1 });
    expect(placeAt(index, 99)).toEqual({ line: 2, column: 1 });
    expect(placeAt(lineIndex(''), 0)).toEqual({ line: 1, column: 1 });
  });

  it('are those that splitting the note gives', () => {
    const note = fc.string({ unit: fc.constantFrom('a', '°', '\n', '\r', '\r\n') });
    fc.assert(
      fc.property(note, text => {
        const index = lineIndex(text);
        const lines = text.split(/\r\n|\r|\n/);
        expect(index.starts.length).toBe(lines.length);
        lines.forEach((line, at) => {
          const { start, end } = lineBounds(index, at + 1);
          expect(text.slice(start, end)).toBe(line);
          expect(placeAt(index, start)).toEqual({ line: at + 1, column: 1 });
          expect(placeAt(index, end)).toEqual({ line: at + 1, column: line.length + 1 });
        });
      }),
      { numRuns: 500 },
    );
  });
});
