import { describe, expect, it } from 'vitest';
import type { Subject } from '../../server/src/language/measurement.ts';
import { readableLines, workedIn } from './worked-note.ts';

function linesOf(note: string, is: (subject: Subject) => boolean = () => true): readonly string[] {
  return workedIn(`\`\`\`measurement\n${note}\n\`\`\`\n`, is).map(({ derivation }) =>
    readableLines(derivation),
  );
}

describe('a mean', () => {
  it('is the sum over the number, with the unit once', () => {
    // Source: NCERT, Physics XI, five periods, 2.624 s before rounding; see tests/published/statistics.md.
    expect(linesOf('T: 2.63 s, 2.56 s, 2.42 s, 2.71 s, 2.80 s\nmean of T = ?')).toEqual([
      'Mean of T\n* mean of T = (2.63 + 2.56 + 2.42 + 2.71 + 2.80) s / 5 = 13.12 s / 5 = 2.624 s',
    ]);
  });

  it('keeps the places of its block’s own line where that is right', () => {
    expect(linesOf('T: 2.63 s, 2.56 s, 2.42 s, 2.71 s, 2.80 s\nmean of T = 2.62 s')).toEqual([
      'Mean of T\n* mean of T = (2.63 + 2.56 + 2.42 + 2.71 + 2.80) s / 5 = 13.12 s / 5 ≈ 2.62 s',
    ]);
  });

  it('of many values gives their sum only', () => {
    // Source: JCGM 100:2008, table 1, from memory: 100.145 °C.
    const t =
      '96.90, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07, 100.33, 100.42, 100.68, 100.95, 101.11, 101.20, 101.57, 101.84, 102.36, 102.72';
    const [text] = linesOf(`t: ${t.replaceAll(',', ' °C,')} °C\nmean of t = ?`);
    expect(text).toBe(
      [
        'Mean of t',
        '(all 20 values of t are added and divided by their number)',
        '* mean of t = 2002.90 °C / 20 = 100.145 °C',
      ].join('\n'),
    );
  });

  it('of readings takes the corrected ones of all rows', () => {
    const note = [
      'pitch: 0.5 mm',
      'circular scale: 50 divisions',
      'closed: circular zero below the line, division 2',
      '| LSR | CSR |',
      '|---|---|',
      '| 6.0 mm | 34 |',
      '| 6.0 mm | 37 |',
      'mean corrected reading = ?',
    ].join('\n');
    // 6.34 mm and 6.37 mm less 0.02 mm, by hand.
    expect(linesOf(note)).toEqual([
      'Mean corrected reading\n* mean corrected reading = (6.32 + 6.35) mm / 2 = 12.67 mm / 2 = 6.335 mm',
    ]);
  });

  it('of negative values puts a minus between them', () => {
    expect(linesOf('e: 0.02 mm, -0.04 mm, -0.01 mm\nmean of e = ?')).toEqual([
      'Mean of e\n* mean of e = (0.02 - 0.04 - 0.01) mm / 3 = -0.03 mm / 3 = -0.01 mm',
    ]);
  });

  it('of nothing has no working', () => {
    expect(linesOf('m: 3 g\nmean of m = ?')).toEqual([]);
    expect(linesOf('mean observed reading = ?')).toEqual([]);
  });
});

describe('the scatter about a mean', () => {
  it('goes by the mean, every deviation, and their sizes', () => {
    // Source: NCERT, Physics XI: 0.006, 0.064, 0.204, 0.086 and 0.176 s with the unrounded mean; 0.1072 s, 0.11 s.
    expect(linesOf('T: 2.63 s, 2.56 s, 2.42 s, 2.71 s, 2.80 s\nmean absolute error of T = ?')).toEqual([
      [
        'Mean absolute error of T',
        '* mean of T = (2.63 + 2.56 + 2.42 + 2.71 + 2.80) s / 5 = 13.12 s / 5 = 2.624 s',
        '(each value less the mean of T, 2.624 s)',
        '| T (s) | deviation (s) | its size (s) |',
        '| 2.63 | 0.006 | 0.006 |',
        '| 2.56 | -0.064 | 0.064 |',
        '| 2.42 | -0.204 | 0.204 |',
        '| 2.71 | 0.086 | 0.086 |',
        '| 2.80 | 0.176 | 0.176 |',
        '(the deviations are added without their signs and divided by their number)',
        '* mean absolute error of T = (0.006 + 0.064 + 0.204 + 0.086 + 0.176) s / 5 = 0.536 s / 5 ≈ 0.11 s',
      ].join('\n'),
    ]);
  });

  it('has n - 1 below the line, and says why', () => {
    // By hand: squares of 0.1, 0, 0.1 mm over 2.
    const [text] = linesOf(
      'a: 4.1 mm, 4.2 mm, 4.3 mm\nmean of a = 4.20 mm\nstandard deviation of a = ?',
      isScatter,
    );
    expect(text).toContain('divided by n - 1 = 2');
    expect(text).toContain('* standard deviation of a = sqrt(0.02 mm^2 / (3 - 1)) = 0.1 mm');
    expect(text).not.toContain('* mean of a');
  });

  it('about a mean without end is written with guard places', () => {
    // By hand: 2.63, 2.56, 2.42 s about 2.53666… s.
    const [text] = linesOf('T: 2.63 s, 2.56 s, 2.42 s\nmean absolute error of T = ?');
    expect(text).toContain('(each value less the mean of T, about 2.5367 s)');
    expect(text).toContain('* mean absolute error of T = (0.0933 + 0.0233 + 0.1167) s / 3 ≈ 0.078 s');
  });

  it('of a long list has no table', () => {
    const [text] = linesOf(
      `x: ${Array.from({ length: 40 }, (_, index) => `${index % 2 === 0 ? 4.1 : 4.3} mm`).join(', ')}\nmean absolute error of x = ?`,
    );
    expect(text).not.toContain('|');
    expect(text).toContain('= 4.0 mm / 40 = 0.1 mm');
  });
});

function isScatter(subject: Subject): boolean {
  return subject.kind === 'statistic' && subject.statistic === 'standard deviation';
}
