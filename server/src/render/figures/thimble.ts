import * as R from '../../engine/rational.ts';
import type { Drum, VernierScale } from './setting.ts';
import { tornEdge } from './straight-scale.ts';
import { element, exactly, label, type Svg, strokes, together } from './svg.ts';

/** The radius of the drum's edge, and how much of the drum is drawn behind it. */
export const RADIUS = 100;
export const DRUM_WIDTH = 96;

/** How high above the line something stands that lies so many turns further round, foreshortened; null where it is out of sight. */
function heightOf(turns: R.Rational): R.Rational | null {
  if (R.compare(R.abs(turns), IN_SIGHT) > 0) return null;
  return exactly(RADIUS * Math.sin(2 * Math.PI * R.toNumber(turns)));
}

/** Past 75° to either side the marks crowd together and are left out. */
const IN_SIGHT = R.rational(75, 360n);

/** Every how many divisions the drum bears a number. */
export function numberedDivisions(divisions: number): number {
  return [100, 50, 20, 10, 5, 2].find(every => divisions / every >= 8) ?? 1;
}

/** Divisions of the drum in sight, each with how many divisions it lies above the line; the number first. */
function divisionsInSight(drum: Drum, on: R.Rational): readonly (readonly [number, R.Rational])[] {
  const middle = R.toInteger(R.floor(on)) ?? 0;
  const reach = Math.ceil(drum.divisions / 4);
  return Array.from({ length: 2 * reach + 1 }, (_, at) => middle - reach + at).map(count => [
    ((count % drum.divisions) + drum.divisions) % drum.divisions,
    R.subtract(R.rational(count), on),
  ]);
}

/** The drum from its edge on, with the divisions that lie around the line; larger numbers come from above. */
export function drawThimble(drum: Drum, on: R.Rational, edge: R.Rational, base: number): Svg {
  const every = numberedDivisions(drum.divisions);
  const turn = R.rational(drum.divisions);
  // Where they would run together only every fifth or tenth is drawn; the unrolled edge has them all.
  const sparse =
    [1, every / 10, every / 5, every].find(step => Number.isInteger(step) && isApart(step, drum)) ?? every;
  const marks = divisionsInSight(drum, on).flatMap(([number, above]) => {
    const height = heightOf(R.divide(above, turn) ?? R.ZERO);
    const isDrawn = height !== null && number % sparse === 0;
    return isDrawn ? [{ number, y: R.subtract(R.rational(base), height) }] : [];
  });
  const isNumbered = (number: number): boolean => number % every === 0;
  const isHalf = (number: number): boolean => every % 2 === 0 && number % (every / 2) === 0;
  return together(
    outline(edge, base),
    strokes(
      marks.map(({ number, y }) => {
        const size = isNumbered(number) ? 26 : isHalf(number) ? 19 : 14;
        return [edge, y, right(edge, size), y] as const;
      }),
      { class: 'drum' },
    ),
    element(
      'g',
      { class: 'drum-numbers', 'font-size': 12 },
      ...marks
        .filter(({ number, y }) => isNumbered(number) && Math.abs(R.toNumber(y) - base) < RADIUS * 0.9)
        .map(({ number, y }) =>
          label(right(edge, 31), R.add(y, R.rational(4)), String(number), { 'text-anchor': 'start' }),
        ),
    ),
  );
}

function isApart(step: number, drum: Drum): boolean {
  return (step * 2 * Math.PI * RADIUS) / drum.divisions >= 2.5;
}

function right(edge: R.Rational, by: number): R.Rational {
  return R.add(edge, R.rational(by));
}

function outline(edge: R.Rational, base: number): Svg {
  const [bevel, end] = [right(edge, 62), right(edge, DRUM_WIDTH)];
  const wide = RADIUS + 12;
  return together(
    strokes([[edge, base - RADIUS, edge, base + RADIUS]], { class: 'edge' }),
    strokes([
      [edge, base - RADIUS, bevel, base - wide],
      [edge, base + RADIUS, bevel, base + wide],
      [bevel, base - wide, bevel, base + wide],
      [bevel, base - wide, end, base - wide],
      [bevel, base + wide, end, base + wide],
    ]),
    tornEdge(end, base - wide, base + wide),
  );
}

/** The lines of a vernier on the sleeve, along the drum's edge. */
export function drawSleeveVernier(vernier: VernierScale, drum: Drum, edge: R.Rational, base: number): Svg {
  const lines = Array.from({ length: vernier.lines + 1 }, (_, line) => line).flatMap(line => {
    const way = R.multiply(vernier.division, R.rational(vernier.backward ? -line : line));
    const height = heightOf(R.divide(way, drum.pitch) ?? R.ZERO);
    return height === null ? [] : [{ line, y: R.subtract(R.rational(base), height) }];
  });
  const numbered = [...(vernier.lines > 10 ? [] : [2]), 5, 10, 20]
    .map(every =>
      lines.filter(
        ({ line, y }) => line !== 0 && line % every === 0 && Math.abs(R.toNumber(y) - base) < RADIUS * 0.88,
      ),
    )
    .find(isRoomy);
  return together(
    strokes(
      lines.map(({ y }) => [right(edge, -26), y, edge, y] as const),
      { class: 'vernier' },
    ),
    element(
      'g',
      { class: 'vernier-numbers', 'font-size': 10 },
      ...(numbered ?? []).map(({ line, y }) =>
        label(right(edge, -30), R.add(y, exactly(3.5)), String(line), { 'text-anchor': 'end' }),
      ),
    ),
  );
}

/** Whether numbers stand so far from one another that none covers the next. */
function isRoomy(numbers: readonly { readonly y: R.Rational }[]): boolean {
  return numbers
    .slice(1)
    .every(({ y }, at) => R.toNumber(R.abs(R.subtract(y, numbers[at]!.y))) >= NUMBER_HEIGHT);
}

const NUMBER_HEIGHT = 9;
