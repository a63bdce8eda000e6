import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { drawSeed } from '../support/seed.ts';
import {
  drawingOf,
  drawingOrNull,
  groupOf,
  isWellFormed,
  type Stroke,
  strokesOf,
  TELLING,
  textsOf,
} from './arc-drawing.ts';

drawSeed('figures/dial');

// Common practice, no source: dials of hundredths and of two thousandths, and turns that small dials count.
const dials = fc
  .record({
    divisions: fc.constantFrom(100, 50, 200, 40),
    hundredths: fc.constantFrom(100, 50, 20),
    turns: fc.nat(19),
    division: fc.nat(),
  })
  .map(dial => ({ ...dial, division: dial.division % dial.divisions }));

function noteLines(dial: {
  divisions: number;
  hundredths: number;
  turns: number;
  division: number;
}): string[] {
  return [
    'instrument: dial gauge',
    `screw: 1 rotation = ${dial.hundredths / 100} mm`,
    `circular scale: ${dial.divisions} divisions`,
    `small hand: ${dial.turns} turns`,
    `large hand: ${dial.division}`,
  ];
}

/** Where a stroke points, in turns with the clock from the top, seen from the circles' centres. */
function share([x, y]: readonly [number, number], [cx, cy]: readonly [number, number]): number {
  const turn = Math.atan2(x - cx, cy - y) / (2 * Math.PI);
  return (turn + 1) % 1;
}

interface SeenDial {
  readonly large: number;
  readonly small: number;
}

/** Reads both hands against the marks and numbers of their dials; in divisions. */
function readDial(svg: string): SeenDial {
  const hand = (name: string, marks: string): number => {
    const [stroke] = strokesOf(svg, name);
    const rings = strokesOf(svg, marks);
    const centre = middleOf(rings);
    const zero = textsOf(svg, `${marks}-numbers`).find(({ text }) => text === '0')!;
    expect(Math.cos(2 * Math.PI * share([zero.x, zero.y], centre))).toBeCloseTo(1, 3);
    // The hand lies on a line through the centre.
    const [x1, y1, x2, y2] = stroke!;
    expect(
      ((x2 - x1) * (centre[1] - y1) - (y2 - y1) * (centre[0] - x1)) / Math.hypot(x2 - x1, y2 - y1),
    ).toBeCloseTo(0, 2);
    for (const number of textsOf(svg, `${marks}-numbers`)) {
      const place = share([number.x, number.y], centre) * rings.length;
      expect(Math.min(Math.abs(place - Number(number.text)), rings.length - place)).toBeLessThan(
        0.75 * Math.max(1, rings.length / 60),
      );
    }
    const shown = share([x2, y2], centre) * rings.length;
    // A hand on nought may point a hair before it.
    return shown > rings.length - 1e-3 ? shown - rings.length : shown;
  };
  return { large: hand('large-hand', 'drum'), small: hand('small-hand', 'turns') };
}

function middleOf(marks: readonly Stroke[]): readonly [number, number] {
  const sum = marks.reduce((total, [x, y]) => [total[0]! + x, total[1]! + y], [0, 0]);
  return [sum[0]! / marks.length, sum[1]! / marks.length];
}

describe('a dial read back from its drawing', () => {
  test('has both hands where the reading says', () => {
    fc.assert(
      fc.property(dials, fc.boolean(), (dial, small) => {
        const { svg, alternative } = drawingOf(noteLines(dial), { small });
        const seen = readDial(groupOf(svg, 'reading'));
        expect(Math.abs(seen.large - dial.division)).toBeLessThan(0.001);
        const turns = dial.turns + dial.division / dial.divisions;
        expect(Math.abs(seen.small - turns)).toBeLessThan(0.001);
        expect(svg).not.toMatch(TELLING);
        expect(alternative).toBe(drawingOf(noteLines({ ...dial, division: 1 }), { small }).alternative);
        expect(isWellFormed(svg)).toBe(true);
      }),
      { numRuns: 40 },
    );
  });

  test('has the closed dial beside it', () => {
    const lines = noteLines({ divisions: 100, hundredths: 100, turns: 3, division: 12 });
    const { svg } = drawingOf([...lines, 'closed: 3 divisions below the line']);
    const before = readDial(groupOf(svg, 'closed'));
    // Common practice, no source: below the line is positive, the mark has passed it.
    expect(before.large).toBeCloseTo(3, 3);
    expect(before.small).toBeCloseTo(0.03, 3);
    expect(readDial(groupOf(svg, 'reading')).large).toBeCloseTo(12, 3);
  });

  test('the worked one says what the hands show', () => {
    const lines = noteLines({ divisions: 100, hundredths: 100, turns: 3, division: 12 });
    const { svg, alternative } = drawingOf(lines, { style: 'worked' });
    expect(svg).toContain('observed reading = 3.12 mm');
    expect(alternative).toContain('large hand: 12 × 0.01 mm');
    expect(readDial(groupOf(svg, 'reading')).large).toBeCloseTo(12, 3);
    expect(isWellFormed(svg)).toBe(true);
  });

  test('no dial shows sixty turns', () => {
    expect(drawingOrNull(noteLines({ divisions: 100, hundredths: 100, turns: 60, division: 1 }))).toBeNull();
  });

  test('a hostile label is only text', () => {
    const { svg } = drawingOf(
      [
        'instrument: dial gauge',
        'screw: 1 rotation = 1 mm',
        'circular scale: 100 divisions',
        '| label | small hand | large hand |',
        '|---|---|---|',
        '| </title><script>alert(1)</script>"&\u202e | 3 turns | 12 |',
      ],
      { style: 'worked' },
    );
    expect(svg).not.toMatch(/<script|\u202e/);
    expect(isWellFormed(svg)).toBe(true);
  });
});
