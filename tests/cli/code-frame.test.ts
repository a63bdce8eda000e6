import fc from 'fast-check';
import stringWidth from 'string-width';
import { describe, expect, it } from 'vitest';
import { lineIndex } from '../../server/src/checks/line-index.ts';
import { codeFrame } from '../../server/src/cli/code-frame.ts';

function frameOf(text: string, faulty: string, room = 60) {
  const start = text.indexOf(faulty);
  return codeFrame(lineIndex(text), { start, end: start + faulty.length }, room, stringWidth);
}

describe('a code frame', () => {
  it('puts carets below the faulty part', () => {
    expect(frameOf('# A note\nR = 2.494 cm\nmore', '2.494 cm')).toEqual({
      line: 'R = 2.494 cm',
      carets: '    ^^^^^^^^',
      runsOnTo: null,
    });
  });

  it('shows a tab as spaces up to the next stop', () => {
    expect(frameOf('\tR\t= 2.5', '2.5')).toMatchObject({ line: '    R   = 2.5', carets: '          ^^^' });
  });

  // Unicode Standard Annex 11: these ideographs are wide, two columns each.
  it('counts wide signs twice', () => {
    expect(frameOf('漢字 = 2.5', '2.5')).toMatchObject({ carets: '       ^^^' });
    expect(frameOf('R = 漢字', '漢字')).toMatchObject({ carets: '    ^^^^' });
  });

  it('counts combining marks not at all', () => {
    expect(frameOf('e\u0301e\u0301 = 2.5', '2.5')).toMatchObject({ carets: '     ^^^' });
  });

  it('writes out control characters and counts what it wrote', () => {
    expect(frameOf('\x1b = 2.5', '2.5')).toMatchObject({ line: '<U+001B> = 2.5', carets: '           ^^^' });
  });

  it('gives an empty place a caret, also at the end of a line', () => {
    const index = lineIndex('R =\nmore');
    expect(codeFrame(index, { start: 3, end: 3 }, 60, stringWidth)).toMatchObject({ carets: '   ^' });
    expect(codeFrame(index, { start: 1, end: 1 }, 60, stringWidth)).toMatchObject({ carets: ' ^' });
  });

  it('says to which line a place runs on', () => {
    expect(frameOf('a = 1\nb = 2\nc', '= 1\nb = 2')).toEqual({ line: 'a = 1', carets: '  ^^^', runsOnTo: 2 });
    expect(frameOf('a = 1\nb = 2\nc', '= 1\n')).toMatchObject({ runsOnTo: null });
  });

  it('cuts a long line around the faulty part', () => {
    const long = `${'x'.repeat(100)}2.494 cm${'y'.repeat(100)}`;
    const { line, carets } = frameOf(long, '2.494 cm', 40);
    expect(line.startsWith('…')).toBe(true);
    expect(line.endsWith('…')).toBe(true);
    expect(stringWidth(line)).toBeLessThanOrEqual(40);
    expect(line.slice(carets.indexOf('^'), carets.length)).toBe('2.494 cm');
  });

  it('shows the beginning of a faulty part that has no room', () => {
    const { line, carets } = frameOf(`R = ${'9'.repeat(200)}`, '9'.repeat(200), 40);
    expect(stringWidth(line)).toBeLessThanOrEqual(40);
    expect(carets).toMatch(/^ *\^{20,}$/);
    expect(carets.length).toBeLessThanOrEqual(40);
  });

  it('always marks the faulty part and keeps within its room', () => {
    const unit = fc.constantFrom('a', ' ', '\t', '漢', 'e\u0301', '×', '\x1b', '👍🏽', '±');
    const piece = fc.string({ unit, maxLength: 120 });
    fc.assert(
      fc.property(piece, fc.string({ unit, minLength: 1, maxLength: 12 }), piece, (before, faulty, after) => {
        const text = before + faulty + after;
        const span = { start: before.length, end: before.length + faulty.length };
        const { line, carets } = codeFrame(lineIndex(text), span, 60, stringWidth);
        expect(carets).toMatch(/^ *\^+$/);
        expect(stringWidth(line)).toBeLessThanOrEqual(60);
        expect(carets.length).toBeLessThanOrEqual(61);
        expect(line).not.toMatch(/[\x00-\x1f\x7f-\x9f]/);
      }),
      { numRuns: 1000 },
    );
  });

  it('takes no longer for a hostile line than its room needs', () => {
    const text = `${'漢'.repeat(500_000)}2.5${'\x1b'.repeat(500_000)}`;
    expect(stringWidth(frameOf(text, '2.5').line)).toBeLessThanOrEqual(60);
  });
});
