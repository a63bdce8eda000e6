import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { chance, type Draw, pick, whole } from '../properties/generators/draw.ts';
import { type ScrewShape, seeScrew as turnScrew } from '../properties/generators/physical-screw.ts';
import { seeVernier, smallestStep, type VernierShape } from '../properties/generators/physical-vernier.ts';
import { drawSeed } from '../support/seed.ts';
import { drawnFigure } from './drawn-figure.ts';
import { ofClass, readXml, theOnly } from './read-figure.ts';
import { seeScrew } from './screw-reader.ts';

// What the drawing must show is turned grain by grain on the bench (tests/properties/generators/physical-screw.ts).
drawSeed('screw figures');

/** Unit, linear divisions to a unit, rotations to a linear division, divisions of the drum. */
const SCREWS: readonly (readonly [string, number, number, number])[] = [
  ['mm', 2, 1, 50],
  ['mm', 1, 1, 100],
  ['mm', 2, 1, 25],
  ['mm', 1, 1, 200],
  ['mm', 2, 1, 500],
  ['in', 40, 1, 25],
];

function screwLines([unit, perUnit, turns, round]: (typeof SCREWS)[number]): string[] {
  return [
    `linear scale: 1 ${unit} = ${perUnit} LSD`,
    `screw: ${turns} rotations = 1 LSD`,
    `circular scale: ${round} divisions`,
  ];
}

describe('a drawn screw is read back', () => {
  test('whole and half divisions of the drum', () => {
    fc.assert(
      fc.property(fc.gen(), draw => {
        const screw = pick(draw, SCREWS);
        const [, perUnit, turns, round] = screw;
        const shape: ScrewShape = { circular: round, perCircular: 2, perLinear: 2 * round * turns };
        const seen = turnScrew(shape, whole(draw, 0, 24 * round));
        const figure = drawnFigure(
          [
            ...screwLines(screw),
            `LSR: ${seen.mark} LSD`,
            `CSR: ${seen.division}${seen.beyond > 0 ? '.5' : ''}`,
            ...(chance(draw) ? ['closed: circular zero above the line, division 3'] : []),
          ],
          { style: pick(draw, ['question', 'worked']), small: chance(draw), narrow: chance(draw) },
        );
        const panel = theOnly(ofClass(readXml(figure.svg), 'reading'), 'reading');
        const drawn = seeScrew(panel, 1 / perUnit, round);
        expect(drawn.coarse * perUnit).toBeCloseTo(seen.mark, 6);
        expect(drawn.drum).toBeCloseTo(seen.division + seen.beyond / 2, 3);
      }),
      { numRuns: 60 },
    );
  });

  test('a vernier on the sleeve', () => {
    fc.assert(
      fc.property(fc.gen(), draw => {
        const { screw, vernier, grains, lines } = drawThree(draw);
        const [, perUnit, , round] = screw;
        const figure = drawnFigure(lines, { style: pick(draw, ['question', 'worked']) });
        const panel = theOnly(ofClass(readXml(figure.svg), 'reading'), 'reading');
        const drawn = seeScrew(panel, 1 / perUnit, round);
        const turn = 2 * vernier.lines * round;
        expect(drawn.coarse * perUnit).toBeCloseTo(Math.floor(grains / turn), 6);
        const seen = seeVernier(vernier, grains % turn);
        expect(Math.floor(drawn.drum + 1e-6)).toBe(seen.mark);
        const step = smallestStep(vernier) / (2 * vernier.lines);
        const met = drawn.lines
          .filter(({ off }) => Math.abs(off) <= step / 1000)
          .sort((a, b) => a.line - b.line);
        expect(met.map(({ line, division }) => ({ line, mark: division }))).toEqual(
          seen.inLine.map(({ line, mark }) => ({ line, mark: ((mark % round) + round) % round })),
        );
        for (const line of drawn.lines)
          if (!met.includes(line)) expect(Math.abs(line.off)).toBeGreaterThan(0.999 * step);
        expect(drawn.lines).toHaveLength(vernier.lines + 1);
      }),
      { numRuns: 40 },
    );
  });

  test('the closed screw: zero above the line is below nought and hides the zero of the sleeve', () => {
    const figure = drawnFigure(
      [
        'screw: 2 rotations = 1 mm',
        'linear scale: 1 mm = 2 LSD',
        'circular scale: 50 divisions',
        'closed: circular zero above the line, division 46',
        'LSR: 7.5 mm',
        'CSR: 33',
      ],
      {},
    );
    const closed = theOnly(ofClass(readXml(figure.svg), 'closed'), 'closed');
    const drawn = seeScrew(closed, 0.5, 50);
    expect(drawn.coarse).toBeNaN();
    expect(drawn.drum).toBeCloseTo(46, 4);
  });
});

function drawThree(draw: Draw) {
  const screw = pick(draw, SCREWS.slice(0, 2));
  const lines = pick(draw, [10, 5, 20]);
  const vernier: VernierShape = { lines, spans: lines - 1, backward: chance(draw) };
  const turn = 2 * lines * screw[3];
  const grains = 2 * whole(draw, 0, 12 * lines * screw[3]);
  const seen = seeVernier(vernier, grains % turn);
  return {
    screw,
    vernier,
    grains,
    lines: [
      ...screwLines(screw),
      `vernier scale: ${lines} VSD = ${lines - 1} CSD`,
      ...(vernier.backward ? ['vernier runs: backward'] : []),
      `LSR: ${Math.floor(grains / turn)} LSD`,
      `CSR: ${seen.mark}`,
      `coinciding division: ${seen.inLine[0]!.line}`,
    ],
  };
}
