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
import { ofClass, piecesOf, readXml, strokesOf, textsOf, theOnly } from './read-figure.ts';
import { numberOf, type SeenLine, seeStraight } from './straight-reader.ts';

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

/** Instruments whose scale stands upright while it is read; common practice, no source. */
const UPRIGHT = ['height gauge', 'depth gauge', 'barometer'];

interface Bench {
  readonly isUpright: boolean;
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
  const isUpright = chance(draw);
  return {
    isUpright,
    shape,
    grains,
    division: units / divisions,
    lines: [
      `instrument: ${isUpright ? pick(draw, UPRIGHT) : pick(draw, ['vernier calipers', 'travelling microscope'])}`,
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
        const { lines, shape, division, grains, isUpright } = drawBench(draw, family, false);
        const figure = drawnFigure(lines, {
          style: pick(draw, ['question', 'worked']),
          small: chance(draw),
          narrow: chance(draw),
        });
        const reading = theOnly(ofClass(readXml(figure.svg), 'reading'), 'reading');
        const seen = seeVernier(shape, grains);
        const drawn = seeStraight(reading, division, shape.backward, isUpright);
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
        // All of the vernier is in sight, and more of the main scale than it covers.
        expect(drawn.all.map(({ line }) => line)).toEqual(
          Array.from({ length: shape.lines + 1 }, (_, line) => line),
        );
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
          const { lines, shape, division, grains, isUpright } = drawBench(draw, family, true);
          const figure = drawnFigure(lines, { style: pick(draw, ['question', 'worked']) });
          const reading = theOnly(ofClass(readXml(figure.svg), 'reading'), 'reading');
          const { between } = seeVernier(shape, grains);
          const drawn = seeStraight(reading, division, shape.backward, isUpright);
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

  test('on an upright scale numbers rise, and the vernier stands beside it', () => {
    for (const instrument of UPRIGHT) {
      const figure = drawnFigure(
        [
          `instrument: ${instrument}`,
          'main scale: 1 mm = 1 MSD',
          'vernier scale: 20 VSD = 19 MSD',
          'MSR: 21 mm',
          'n: 7',
        ],
        {},
      );
      const reading = theOnly(ofClass(readXml(figure.svg), 'reading'), 'reading');
      const whole = theOnly(ofClass(reading, 'whole'), 'whole');
      const numbers = textsOf(whole, 'scale-numbers');
      for (const [at, number] of numbers.slice(1).entries()) {
        expect(Number(number.text)).toBeGreaterThan(Number(numbers[at]!.text));
        expect(number.y).toBeLessThan(numbers[at]!.y);
      }
      const [edge] = strokesOf(whole, 'scale').map(({ x1 }) => x1);
      for (const { x1, x2 } of strokesOf(whole, 'scale')) expect([x1, x2 < x1]).toEqual([edge, true]);
      for (const { x1, x2 } of strokesOf(whole, 'vernier')) expect([x1, x1 < x2]).toEqual([edge, true]);
      expect(figure.alternative).toContain('standing upright');
    }
  });

  test('the dimension line of the main scale reading begins at nought wherever that is in sight', () => {
    // By hand: 20 lines of 19/20 numbered backward reach 19 mm back, and so does a closed vernier before nought.
    for (const [mark, more] of [
      [8, 'vernier runs: backward'],
      [1, 'vernier runs: backward'],
      [-3, 'vernier runs: forward'],
    ] as const) {
      for (const instrument of ['vernier calipers', 'height gauge']) {
        const scales = ['main scale: 1 mm = 1 MSD', 'vernier scale: 20 VSD = 19 MSD', more];
        const lines = [`instrument: ${instrument}`, ...scales, `MSR: ${mark} mm`, 'n: 4'];
        const root = readXml(drawnFigure(lines, { style: 'worked' }).svg);
        const isUpright = instrument === 'height gauge';
        const along = ({ x, y }: { x: number; y: number }) => (isUpright ? 4 - y : x);
        const [first, second] = textsOf(theOnly(ofClass(root, 'whole'), 'whole'), 'scale-numbers');
        const [one, other] = [first!, second!].map(each => ({ at: along(each), value: numberOf(each.text) }));
        const perUnit = (other!.at - one!.at) / (other!.value - one!.value);
        const drawn = ofClass(root, 'dimension')[0]!.inside[0]!;
        const strokes = strokesOf(
          { ...drawn, attributes: new Map([...drawn.attributes, ['class', 'it']]) },
          'it',
        );
        const ends = strokes.at(-1)!;
        const values = (isUpright ? [-ends.y1, -ends.y2] : [ends.x1, ends.x2]).map(
          at => one!.value + (at - one!.at) / perUnit,
        );
        expect(values[0]).toBeCloseTo(Math.min(0, mark), 3);
        expect(values[1]).toBeCloseTo(Math.max(0, mark), 3);
      }
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

  test.each([1, 2, 3, 5])('%i zero checks are drawn as far as there is room, and told of', count => {
    for (const instrument of ['vernier calipers', 'height gauge']) {
      const divisions = Array.from({ length: count }, (_, at) => at + 1);
      const lines = [
        `instrument: ${instrument}`,
        'main scale: 1 mm = 1 MSD',
        'vernier scale: 10 VSD = 9 MSD',
        ...divisions.map(division => `closed: vernier zero right, division ${division}`),
        'MSR: 21 mm',
        'n: 4',
      ];
      const { svg, alternative } = drawnFigure(lines, { style: 'worked' });
      const drawn = ofClass(readXml(svg), 'closed');
      expect(drawn).toHaveLength(Math.min(count, 3));
      for (const [at, closed] of drawn.entries()) {
        const seen = seeStraight(closed, 1, false, instrument === 'height gauge');
        expect(seen.zero).toBeCloseTo((at + 1) / 10, 5);
        const said = count === 1 ? 'zero error = +0.1 mm' : `reads +0.${at + 1} mm`;
        expect(piecesOf(closed).map(({ text }) => text)).toContain(said);
      }
      const told =
        count === 1
          ? 'with it the same instrument closed;'
          : count <= 3
            ? `in each of ${count} checks`
            : 'in the first 3 of 5 checks';
      expect(alternative).toContain(told);
      // The mean of 1, 2, … tenths, by hand.
      if (count > 1) expect(svg).toContain(`mm, the mean of ${count} checks`);
    }
  });
});
