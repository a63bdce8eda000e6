import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { drawSeed } from '../support/seed.ts';
import {
  drawingOf,
  drawingOrNull,
  groupOf,
  isWellFormed,
  strokesOf,
  TELLING,
  textsOf,
} from './arc-drawing.ts';

drawSeed('figures/disc');

interface Disc {
  /** Half millimetres to a turn. */
  readonly halves: number;
  readonly divisions: number;
  readonly turns: number;
  readonly division: number;
}

const discs: fc.Arbitrary<Disc> = fc
  .record({
    halves: fc.constantFrom(1, 2),
    divisions: fc.constantFrom(100, 50, 200, 500),
    turns: fc.nat(24),
    division: fc.nat(),
  })
  .map(disc => ({ ...disc, division: disc.division % disc.divisions }));

function scaleLines({ halves, divisions }: Disc): readonly string[] {
  return ['instrument: spherometer', `pitch: ${halves / 2} mm`, `circular scale: ${divisions} divisions`];
}

function noteLines(disc: Disc): readonly string[] {
  return [...scaleLines(disc), `LSR: ${(disc.turns * disc.halves) / 2} mm`, `CSR: ${disc.division}`];
}

interface SeenDisc {
  /** How high the disc's upper edge stands at the column, in divisions of the column above its nought. */
  readonly height: number;
  /** The division at the column's edge. */
  readonly division: number;
}

/**
 * Reads a spherometer from strokes and numbers alone. The column's marks end at its edge; the disc's hang from its
 * upper edge, and how far each is turned away follows from how far it stands aside.
 */
function readDisc(svg: string, divisions: number, perNumber: number | null): SeenDisc {
  const scale = strokesOf(svg, 'scale');
  const [x] = scale[0]!;
  const rows = scale.map(([, y]) => y).sort((a, b) => b - a);
  const each = rows[0]! - rows[1]!;
  const drum = strokesOf(svg, 'drum');
  const numbers = textsOf(svg, 'drum-numbers');
  // The edge is drawn as part of an ellipse, as wide as the disc.
  const reach = Number(/A(\S+) 24 /.exec(svg)![1]);
  const turnOf = (at: number): number => (Math.asin((at - x) / reach) / (2 * Math.PI)) * divisions;
  const marks = drum.map(([at, y, , end]) => ({ at, y, turn: turnOf(at), length: end - y }));
  const longest = Math.max(...marks.map(({ length }) => length));
  const numbered = marks.filter(({ length }) => length > longest - 0.001);
  const named = numbers.map(({ x: at, text }) => {
    const mark = numbered.reduce((best, other) =>
      Math.abs(other.at - at) < Math.abs(best.at - at) ? other : best,
    );
    return { turn: mark.turn, value: Number(text) };
  });
  const shares = named.map(({ turn, value }) => (((value + turn) % divisions) + divisions) % divisions);
  const [first] = shares;
  for (const share of shares) {
    const apart = Math.abs(share - first!);
    expect(Math.min(apart, divisions - apart)).toBeLessThan(0.01);
  }
  const nearest = marks.reduce((best, mark) => (Math.abs(mark.turn) < Math.abs(best.turn) ? mark : best));
  const top = Math.max(...marks.map(({ y }) => y));
  expect(nearest.y).toBeCloseTo(top, 6);
  const zero =
    perNumber === null
      ? rows[0]!
      : (() => {
          const [number] = textsOf(svg, 'scale-numbers');
          const row = rows.reduce((best, other) =>
            Math.abs(other + 4 - number!.y) < Math.abs(best + 4 - number!.y) ? other : best,
          );
          return row + (Number(number!.text) / perNumber) * each;
        })();
  return { height: (zero - nearest.y) / each, division: first! };
}

describe('a spherometer read back from its drawing', () => {
  test('has the disc at its height and its division at the edge', () => {
    fc.assert(
      fc.property(discs, fc.boolean(), (disc, small) => {
        const { svg, alternative } = drawingOf(noteLines(disc), { small });
        const seen = readDisc(groupOf(svg, 'reading'), disc.divisions, disc.halves / 2);
        expect(
          Math.min(
            Math.abs(seen.division - disc.division),
            Math.abs(seen.division - disc.division - disc.divisions),
            Math.abs(seen.division - disc.division + disc.divisions),
          ),
        ).toBeLessThan(0.01);
        expect(seen.height).toBeGreaterThan(disc.turns - 0.01);
        expect(seen.height).toBeLessThan(disc.turns + 1.05);
        expect(svg).not.toMatch(TELLING);
        expect(alternative).toBe(
          drawingOf(noteLines({ ...disc, turns: 2, division: 1 }), { small }).alternative,
        );
        expect(isWellFormed(svg)).toBe(true);
      }),
      { numRuns: 40 },
    );
  });

  test('a division at the edge is exactly there', () => {
    const { svg } = drawingOf([
      'instrument: spherometer',
      'pitch: 1 mm',
      'circular scale: 100 divisions',
      'LSR: 1 mm',
      'CSR: 88',
    ]);
    const [edge] = strokesOf(svg, 'scale')[0]!;
    expect(strokesOf(svg, 'drum').filter(([x]) => x === edge)).toHaveLength(1);
  });

  test('a disc read before and after moves by what it was turned', () => {
    fc.assert(
      fc.property(fc.nat(99), fc.nat(99), fc.nat(4), fc.boolean(), (initial, final, rotations, isHigher) => {
        const moved = (((isHigher ? final - initial : initial - final) + 100) % 100) + 100 * rotations;
        const lines = [
          'instrument: spherometer',
          'pitch: 1 mm',
          'circular scale: 100 divisions',
          `initial circular reading: ${initial}`,
          `final circular reading: ${final}`,
          `turned: toward ${isHigher ? 'higher' : 'lower'} numbers`,
          `full rotations: ${rotations}`,
        ];
        const { svg } = drawingOf(lines);
        const before = readDisc(groupOf(svg, 'before'), 100, null);
        const after = readDisc(groupOf(svg, 'reading'), 100, null);
        expect(Math.sin(((before.division - initial) * Math.PI) / 50)).toBeCloseTo(0, 3);
        expect(Math.sin(((after.division - final) * Math.PI) / 50)).toBeCloseTo(0, 3);
        // The mark nearest to the edge may hang a hair higher than the edge's own place on the tilted rim.
        expect(after.height - before.height).toBeCloseTo((isHigher ? moved : -moved) / 100, 1);
        expect(svg).not.toMatch(TELLING);
        expect(textsOf(svg, 'scale-numbers')).toEqual([]);
      }),
      { numRuns: 25 },
    );
  });

  test('has the closed position beside it', () => {
    const { svg } = drawingOf([
      'instrument: spherometer',
      'pitch: 1 mm',
      'circular scale: 100 divisions',
      'closed: 4 divisions above the line',
      'LSR: 1 mm',
      'CSR: 88',
    ]);
    // Common practice, no source: above is negative, so the disc shows a hundred less four.
    expect(readDisc(groupOf(svg, 'closed'), 100, 1).division).toBeCloseTo(96, 2);
    expect(readDisc(groupOf(svg, 'reading'), 100, 1).division).toBeCloseTo(88, 2);
  });

  test('the worked one says what it shows', () => {
    const lines = [
      'instrument: spherometer',
      'pitch: 1 mm',
      'circular scale: 100 divisions',
      'LSR: 1 mm',
      'CSR: 88',
    ];
    const { svg, alternative } = drawingOf(lines, { style: 'worked' });
    expect(svg).toContain('observed reading = 1.88 mm');
    expect(alternative).toContain('division 88 of the disc at the column');
    expect(isWellFormed(svg)).toBe(true);
  });

  test('a disc that moved a hundred turns is not drawn', () => {
    const lines = [
      'instrument: spherometer',
      'pitch: 1 mm',
      'circular scale: 100 divisions',
      'initial circular reading: 5',
      'final circular reading: 9',
      'turned: toward higher numbers',
      'full rotations: 100',
    ];
    expect(drawingOrNull(lines)).toBeNull();
  });
});
