import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { drawSeed } from '../support/seed.ts';
import { pick, whole } from './generators/draw.ts';
import { perRotation, positionsThatLook, seeScrew } from './generators/physical-screw.ts';
import { grainsOfMain, seeVernier, smallestStep } from './generators/physical-vernier.ts';
import { drawScrew } from './generators/screw-note.ts';
import { drawShape, type VernierFamily } from './generators/vernier-shape.ts';

// The bench on which the other properties rest, against a second computation: the congruence
// x + k·V = m·S, solved with remainders and a common divisor (elementary number theory, no source).
drawSeed('bench');

const FAMILIES: readonly VernierFamily[] = [
  'direct',
  'direct-backward',
  'retrograde-forward',
  'retrograde-backward',
  'extended',
  'odd',
  'common-divisor',
];

const remainder = (a: number, b: number) => ((a % b) + b) % b;
const divisor = (a: number, b: number): number => (b === 0 ? a : divisor(b, a % b));

describe('the bench', () => {
  test('lays verniers out as the congruence has it', () => {
    fc.assert(
      fc.property(fc.gen(), draw => {
        const shape = drawShape(draw, pick(draw, FAMILIES));
        const division = grainsOfMain(shape);
        const step = smallestStep(shape);
        expect(step).toBe(2 * divisor(shape.lines, shape.spans));
        const position = step * whole(draw, -(division / step) + 1, (60 * division) / step);
        const seen = seeVernier(shape, position);
        expect(seen.mark).toBe(Math.floor(position / division));
        expect(seen.inLine.length).toBeGreaterThan(0);
        for (const { line, mark } of seen.inLine) {
          const shift = (shape.backward ? 1 : -1) * line * 2 * shape.spans;
          expect(seen.mark * division + remainder(shift, division)).toBe(position);
          expect(mark * division + shift).toBe(position);
        }
      }),
      { numRuns: 500 },
    );
  });

  test('finds two lines that share the coincidence halfway between their places', () => {
    fc.assert(
      fc.property(fc.gen(), draw => {
        const shape = drawShape(
          draw,
          pick(draw, ['direct', 'retrograde-forward', 'retrograde-backward', 'extended']),
        );
        const division = grainsOfMain(shape);
        const position = 2 * whole(draw, 0, 30 * shape.lines) + 1;
        const { between } = seeVernier(shape, position);
        if (between === null) throw new Error('none');
        const shift = (line: number) =>
          remainder((shape.backward ? 1 : -1) * line * 2 * shape.spans, division);
        const near = [shift(between), shift(between + 1)].map(place => remainder(place - position, division));
        expect(near.sort((a, b) => a - b)).toEqual([1, division - 1]);
      }),
      { numRuns: 300 },
    );
  });

  test('turns screws as division with a remainder has it', () => {
    fc.assert(
      fc.property(fc.gen(), draw => {
        const [turns, linear] = pick(draw, [
          [1, 1],
          [1, 2],
          [2, 3],
          [2, 1],
          [3, 2],
        ] as const);
        const { shape } = drawScrew(draw, turns, linear);
        const rotation = perRotation(shape);
        expect(shape.perLinear * linear).toBe(rotation * turns);
        const position = whole(draw, -rotation + 1, 10 * rotation);
        const seen = seeScrew(shape, position);
        expect(seen.mark).toBe(Math.floor(position / shape.perLinear));
        expect(seen.rotations).toBe(Math.floor(position / rotation));
        expect(seen.division * shape.perCircular + seen.beyond).toBe(remainder(position, rotation));
        const alike = positionsThatLook(shape, seen, 12 * rotation);
        const first = seen.mark * shape.perLinear;
        const expected: number[] = [];
        for (let place = remainder(position, rotation); place < first + shape.perLinear; place += rotation) {
          if (first <= place && 0 <= place && place <= 12 * rotation) expected.push(place);
        }
        expect(alike).toEqual(expected);
      }),
      { numRuns: 200 },
    );
  });
});
