import * as R from '../../engine/rational.ts';
import { brief, cutTo } from './captions.ts';
import type { Drum, Stand, VernierScale } from './setting.ts';
import { element, exactly, label, type Svg, strokes, together } from './svg.ts';
import { RADIUS } from './thimble.ts';

/** The drum's edge unrolled and magnified: what is drawn beside the drum where its own divisions are too fine. */
export interface Unrolled {
  /** How many divisions above the line it begins and ends. */
  readonly from: R.Rational;
  readonly to: R.Rational;
  /** Units of the drawing to one division of the drum. */
  readonly perDivision: R.Rational;
  readonly height: number;
}

const HEIGHT = 280;
const VISIBLE = 3;
/** Divisions that stand nearer to each other than this are magnified. */
const FINE = 4;

/** What has to be unrolled; null where the drum itself can be read. */
export function unrolledOf(drum: Drum, vernier: VernierScale | null, stand: Stand): Unrolled | null {
  const span = vernier === null ? null : spanOf(vernier);
  if (span === null && (2 * Math.PI * RADIUS) / drum.divisions >= FINE) return null;
  const aside = R.rational(Number(R.numerator(R.abs(stand.position)) % 5n) - 2);
  const [low, high] = span ?? [R.subtract(aside, R.rational(4)), R.add(aside, R.rational(4))];
  const [from, to] = [R.subtract(low, MARGIN), R.add(high, MARGIN)];
  const divisions = R.toNumber(R.subtract(to, from));
  const steps = vernier === null ? 1 : R.toNumber(R.divide(vernier.along, vernier.step) ?? R.ONE);
  const most = vernier === null ? 24 : Math.max(24, VISIBLE * steps);
  const perDivision = cutTo(Math.min(most, HEIGHT / divisions));
  return { from, to, perDivision, height: Math.ceil(R.toNumber(perDivision) * divisions) };
}

const MARGIN = R.rational(13, 10n);

function spanOf(vernier: VernierScale): readonly [R.Rational, R.Rational] {
  const all = R.divide(R.multiply(vernier.division, R.rational(vernier.lines)), vernier.along) ?? R.ZERO;
  return vernier.backward ? [R.negate(all), R.ZERO] : [R.ZERO, all];
}

/** Where something lies that stands so many divisions above the line. */
export function heightOn(unrolled: Unrolled, top: number, above: R.Rational): R.Rational {
  return R.add(R.rational(top), R.multiply(R.subtract(unrolled.to, above), unrolled.perDivision));
}

/** How many divisions above the line a line of the vernier stands. */
export function lineAbove(vernier: VernierScale, line: number): R.Rational {
  const way = R.multiply(vernier.division, R.rational(vernier.backward ? -line : line));
  return R.divide(way, vernier.along) ?? R.ZERO;
}

/** The sleeve's lines to the left of the edge, the drum's to its right, both flat. */
export function drawUnrolled(
  unrolled: Unrolled,
  {
    drum,
    vernier,
    stand,
  }: { readonly drum: Drum; readonly vernier: VernierScale | null; readonly stand: Stand },
  edge: number,
  top: number,
): Svg {
  const on = stand.drum ?? R.ZERO;
  const y = (above: R.Rational): R.Rational => heightOn(unrolled, top, above);
  const room = R.toNumber(unrolled.perDivision);
  const first = R.toInteger(R.ceil(R.add(on, unrolled.from))) ?? 0;
  const last = R.toInteger(R.floor(R.add(on, unrolled.to))) ?? 0;
  const marks = Array.from({ length: Math.max(0, last - first + 1) }, (_, at) => first + at);
  const around = (count: number): number => ((count % drum.divisions) + drum.divisions) % drum.divisions;
  const lines = vernier === null ? [] : Array.from({ length: vernier.lines + 1 }, (_, line) => line);
  const every = room >= 13 ? 1 : 5;
  const bottom = top + unrolled.height;
  return element(
    'g',
    { class: 'unrolled finest' },
    strokes([
      [edge, top, edge, bottom],
      [edge - 54, top, edge - 54, bottom],
      [edge + 54, top, edge + 54, bottom],
    ]),
    torn(edge, top),
    torn(edge, bottom),
    vernier === null ? strokes([[edge - 54, y(R.ZERO), edge, y(R.ZERO)]], { class: 'line' }) : together(),
    strokes(
      lines.map(line => {
        const at = y(lineAbove(vernier!, line));
        return [edge - (line % 5 === 0 ? 26 : 20), at, edge, at] as const;
      }),
      { class: 'vernier' },
    ),
    strokes(
      marks.map(count => {
        const at = y(R.subtract(R.rational(count), on));
        return [edge, at, edge + (around(count) % 5 === 0 ? 26 : 20), at] as const;
      }),
      { class: 'drum' },
    ),
    element(
      'g',
      { class: 'vernier-numbers', 'font-size': 11 },
      ...lines
        .filter(line => line % every === 0)
        .map(line =>
          label(edge - 30, lowered(y(lineAbove(vernier!, line))), String(line), { 'text-anchor': 'end' }),
        ),
    ),
    element(
      'g',
      { class: 'drum-numbers', 'font-size': 11 },
      ...marks
        .filter(
          count => around(count) % every === 0 && isInside(y(R.subtract(R.rational(count), on)), top, bottom),
        )
        .map(count =>
          label(edge + 28, lowered(y(R.subtract(R.rational(count), on))), String(around(count)), {
            'text-anchor': 'start',
          }),
        ),
    ),
  );
}

function lowered(y: R.Rational): R.Rational {
  return R.add(y, exactly(3.5));
}

function isInside(y: R.Rational, top: number, bottom: number): boolean {
  const at = R.toNumber(y);
  return top + 9 <= at && at <= bottom - 9;
}

/** A torn edge across the strip. */
function torn(edge: number, y: number): Svg {
  const steps = Array.from(
    { length: 13 },
    (_, at) => [edge - 54 + at * 9, y + (at % 12 === 0 ? 0 : at % 2 === 0 ? -3 : 3)] as const,
  );
  return strokes(
    steps.slice(1).map((point, at) => [...steps[at]!, ...point] as const),
    { class: 'torn', 'stroke-width': 0.8 },
  );
}

/** `unrolled, 2.4 times larger` than the divisions on the line. */
export function unrolledCaption(unrolled: Unrolled, drum: Drum): string {
  const own = exactly((2 * Math.PI * RADIUS) / drum.divisions);
  const times = R.divide(unrolled.perDivision, own);
  return times === null || R.compare(times, R.rational(11, 10n)) < 0
    ? 'the edge unrolled'
    : `the edge unrolled, ${brief(times)} times larger`;
}
