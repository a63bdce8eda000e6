import * as R from '../../engine/rational.ts';
import { type Marking, markNumber, markRank } from './divided-scale.ts';
import type { DividedScale } from './setting.ts';
import { type Coordinate, element, evenly, label, placed, type Svg, strokes, together } from './svg.ts';

/** A piece of a straight scale as it is drawn: from where to where, how large, and where on the paper. */
export interface Strip {
  readonly from: R.Rational;
  readonly to: R.Rational;
  /** Units of the drawing to one unit of the scale. */
  readonly perUnit: R.Rational;
  /** Where `from` lies, and the edge at which the two scales meet. */
  readonly left: number;
  readonly base: number;
}

const LENGTH = { unit: 24, half: 19, tenth: 13, fine: 9 } as const;

/** The height of the main scale above its edge. */
export const STRIP_HEIGHT = 48;

/** Where a value of the scale lies on the paper. */
export function placeOn(strip: Strip, value: R.Rational): R.Rational {
  return R.add(R.rational(strip.left), R.multiply(R.subtract(value, strip.from), strip.perUnit));
}

/** The marks of a scale that lie on a strip, by their number from nought. */
export function marksOn(scale: DividedScale, strip: Strip): readonly number[] {
  const lowest = scale.from === null ? strip.from : R.max(strip.from, scale.from);
  const first = R.toInteger(R.ceil(R.divide(lowest, scale.division) ?? R.ZERO)) ?? 0;
  const last = R.toInteger(R.floor(R.divide(strip.to, scale.division) ?? R.ZERO)) ?? 0;
  return Array.from({ length: Math.max(0, Math.min(last - first + 1, MOST_MARKS)) }, (_, at) => first + at);
}

const MOST_MARKS = 2000;

/** The main scale: its marks standing on the edge, its numbers above them, torn where it goes on. */
export function mainStrip(scale: DividedScale, strip: Strip, marking: Marking): Svg {
  const { base } = strip;
  const placeOfMark = markPlaces(scale, strip);
  const marks = marksOn(scale, strip).map(index => ({ index, x: placeOfMark(index) }));
  const isClear = clearOf(strip);
  return together(
    outline(scale, strip),
    strokes(
      marks.map(({ index, x }) => [x, base, x, base - LENGTH[markRank(marking, index)]] as const),
      { class: 'scale' },
    ),
    element(
      'g',
      { class: 'scale-numbers', 'font-size': 12 },
      ...marks
        .filter(({ index, x }) => index % marking.number === 0 && isClear(x))
        .map(({ index, x }) => label(x, base - 29, markNumber(scale, index))),
    ),
  );
}

/** The marks of a strip that bear a number. */
export function numbersOn(scale: DividedScale, strip: Strip, marking: Marking): readonly number[] {
  const placeOfMark = markPlaces(scale, strip);
  const isClear = clearOf(strip);
  return marksOn(scale, strip).filter(index => index % marking.number === 0 && isClear(placeOfMark(index)));
}

/** Whether a number at a place keeps clear of the torn edges. */
export function clearOf(strip: Strip): (x: number) => boolean {
  const room = 12;
  const [least, most] = [strip.left + room, R.toNumber(placeOn(strip, strip.to)) - room];
  return x => least <= x && x <= most;
}

/** Where the marks of a scale stand on a strip, by their number from nought. */
export function markPlaces(scale: DividedScale, strip: Strip): (index: number) => number {
  return evenly(placeOn(strip, R.ZERO), R.multiply(scale.division, strip.perUnit));
}

function outline(scale: DividedScale, strip: Strip): Svg {
  const [top, base] = [strip.base - STRIP_HEIGHT, strip.base];
  const isBeginning = scale.from !== null && R.compare(strip.from, scale.from) < 0;
  const left = strip.left;
  const right = placeOn(strip, strip.to);
  return together(
    strokes([
      [left, top, right, top],
      [left, base, right, base],
    ]),
    isBeginning ? strokes([[left, top, left, base]]) : tornEdge(left, top, base),
    tornEdge(right, top, base),
  );
}

/** The torn edge of a scale that goes on: a line to and fro. */
export function tornEdge(x: Coordinate, top: number, bottom: number): Svg {
  const steps = 6;
  const middle = typeof x === 'number' ? x : placed(x);
  const points = Array.from({ length: steps + 1 }, (_, at) => {
    const aside = at === 0 || at === steps ? 0 : at % 2 === 0 ? -3 : 3;
    return [middle + aside, top + ((bottom - top) * at) / steps] as const;
  });
  const lines = points.slice(1).map((point, at) => [...points[at]!, ...point] as const);
  return strokes(lines, { class: 'torn', 'stroke-width': 0.8 });
}
