import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { chance, type Draw, pick, whole } from '../properties/generators/draw.ts';
import {
  grainsOfMain,
  seeVernier,
  smallestStep,
  type VernierShape,
} from '../properties/generators/physical-vernier.ts';
import { drawShape, type VernierFamily } from '../properties/generators/vernier-shape.ts';
import { drawSeed } from '../support/seed.ts';
import { drawnFigure } from './drawn-figure.ts';
import { ofClass, readXml, theOnly } from './read-figure.ts';
import { type SeenLine, seeStraight } from './straight-reader.ts';

// What the drawing must show is laid out mark by mark on the bench (tests/properties/generators/physical-vernier.ts).
drawSeed('straight figures');

const FAMILIES: readonly VernierFamily[] = [
  'direct',
  'retrograde-forward',
  'retrograde-backward',
  'direct-backward',
  'extended',
  'odd',
  'common-divisor',
];

const SCALES: readonly (readonly [unit: string, units: number, divisions: number])[] = [
  ['mm', 1, 1],
  ['cm', 1, 10],
  ['cm', 1, 20],
  ['mm', 1, 2],
  ['in', 1, 40],
  ['in', 1, 20],
  ['cm', 3, 7],
  ['in', 1, 16],
];

interface Bench {
  readonly lines: readonly string[];
  readonly shape: VernierShape;
  readonly division: number;
  readonly grains: number;
}

function drawBench(draw: Draw, family: VernierFamily, isShared: boolean): Bench {
  const shape = drawShape(draw, family);
  const [unit, units, divisions] = pick(draw, SCALES);
  const step = smallestStep(shape);
  const most = Math.floor((60 * grainsOfMain(shape)) / step);
  const grains = step * whole(draw, 0, most) + (isShared ? step / 2 : 0);
  const seen = seeVernier(shape, grains);
  const line = isShared
    ? `between ${seen.between} and ${seen.between! + 1}`
    : String(pick(draw, seen.inLine).line);
  return {
    shape,
    grains,
    division: units / divisions,
    lines: [
      `main scale: ${units} ${unit} = ${divisions} MSD`,
      `vernier scale: ${shape.lines} VSD = ${shape.spans} MSD`,
      ...(shape.backward ? ['vernier runs: backward'] : []),
      `MSR: ${seen.mark} MSD`,
      `n: ${line}`,
      ...(chance(draw) ? ['closed: zeros coincide'] : []),
    ],
  };
}

/** A thousandth of a step, in main divisions. */
function isMet({ off }: SeenLine, step: number): boolean {
  return Math.abs(off) <= step / 1000;
}

describe('a drawn vernier is read back', () => {
  test.each(FAMILIES)('%s', family => {
    fc.assert(
      fc.property(fc.gen(), draw => {
        const { lines, shape, division, grains } = drawBench(draw, family, false);
        const figure = drawnFigure(lines, {
          style: pick(draw, ['question', 'worked']),
          small: chance(draw),
        });
        const reading = theOnly(ofClass(readXml(figure.svg), 'reading'), 'reading');
        const seen = seeVernier(shape, grains);
        const drawn = seeStraight(reading, division, shape.backward);
        const step = smallestStep(shape) / grainsOfMain(shape);
        expect(drawn.coarse / division).toBeCloseTo(seen.mark, 6);
        expect(Math.abs(drawn.zero / division - grains / grainsOfMain(shape))).toBeLessThan(step / 100);
        const expected = new Set(seen.inLine.map(({ line }) => line));
        const met = drawn.lines.filter(line => isMet(line, step)).map(({ line }) => line);
        expect(met).toEqual(drawn.lines.map(({ line }) => line).filter(line => expected.has(line)));
        expect(met.length).toBeGreaterThan(0);
        for (const line of drawn.lines) {
          if (!expected.has(line.line)) expect(Math.abs(line.off)).toBeGreaterThan(0.999 * step);
        }
        // On the whole vernier the same lines stand nearest, finer than can be seen.
        const all = drawn.all.filter(({ off }) => Math.abs(off) < step / 3).map(({ line }) => line);
        expect(all).toEqual([...expected].sort((a, b) => a - b));
      }),
      { numRuns: 25 },
    );
  });

  test.each(['direct', 'retrograde-forward', 'retrograde-backward', 'extended'] as const)(
    'two lines of a %s one share the coincidence',
    family => {
      fc.assert(
        fc.property(fc.gen(), draw => {
          const { lines, shape, division, grains } = drawBench(draw, family, true);
          const figure = drawnFigure(lines, { style: pick(draw, ['question', 'worked']) });
          const reading = theOnly(ofClass(readXml(figure.svg), 'reading'), 'reading');
          const { between } = seeVernier(shape, grains);
          const drawn = seeStraight(reading, division, shape.backward);
          const step = smallestStep(shape) / grainsOfMain(shape);
          const [low, high] = [between!, between! + 1].map(
            number => drawn.lines.find(({ line }) => line === number)!,
          );
          expect(Math.abs(low!.off)).toBeCloseTo(step / 2, 4);
          expect(Math.abs(low!.off + high!.off)).toBeLessThan(step / 1000);
          for (const line of drawn.lines) expect(Math.abs(line.off)).toBeGreaterThan(step * 0.499);
        }),
        { numRuns: 20 },
      );
    },
  );

  test('a least count is a step that can be seen', () => {
    for (const [lines, spans] of [
      [10, 9],
      [20, 19],
      [25, 24],
      [50, 49],
      [20, 39],
    ] as const) {
      const figure = drawnFigure(
        ['main scale: 1 mm = 1 MSD', `vernier scale: ${lines} VSD = ${spans} MSD`, 'MSR: 21 mm', 'n: 7'],
        {},
      );
      const reading = theOnly(ofClass(readXml(figure.svg), 'reading'), 'reading');
      const { lines: seen } = seeStraight(reading, 1, false);
      expect(seen[0]!.room / lines).toBeGreaterThan(1.5);
      expect(seen.length).toBeGreaterThan(4);
    }
  });

  test('the closed position stands beside the reading and is read by the same rule', () => {
    const figure = drawnFigure(
      [
        'main scale: 1 mm = 1 MSD',
        'vernier scale: 10 VSD = 9 MSD',
        'closed: vernier zero left, division 7',
        'MSR: 21 mm',
        'n: 4',
      ],
      {},
    );
    const closed = theOnly(ofClass(readXml(figure.svg), 'closed'), 'closed');
    const drawn = seeStraight(closed, 1, false);
    // -(10 - 7) × 0.1 mm, common practice, no source.
    expect(drawn.zero).toBeCloseTo(-0.3, 5);
    expect(drawn.lines.filter(line => isMet(line, 0.1)).map(({ line }) => line)).toEqual([7]);
  });
});
