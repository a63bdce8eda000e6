import * as R from '../../engine/rational.ts';
import { type Marking, markNumber, markRank } from './divided-scale.ts';
import { type Foot, laidMarks, laidStrokes } from './lay.ts';
import type { DividedScale } from './setting.ts';
import { type Coordinate, element, evenly, label, placed, type Svg, together } from './svg.ts';

/** A piece of a straight scale as it is drawn: from where to where, how large, and where on the paper. */
export interface Strip {
  readonly from: R.Rational;
  readonly to: R.Rational;
  /** Units of the drawing to one unit of the scale. */
  readonly perUnit: R.Rational;
  /** Where `from` lies along the scale, and across it the edge at which the two scales meet. */
  readonly left: number;
  readonly base: number;
  readonly foot: Foot;
}

const LENGTH = { unit: 24, half: 19, tenth: 13, fine: 9 } as const;

/** How far the main scale reaches from its edge; numbers beside the marks want more room than above them. */
export const STRIP_HEIGHT = 48;
export const UPRIGHT_WIDTH = 76;

/** Where a value of the scale lies along it. */
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
  const { base, foot } = strip;
  const placeOfMark = markPlaces(scale, strip);
  const marks = marksOn(scale, strip).map(index => ({
    index,
    x: placeOfMark(index),
    to: base - LENGTH[markRank(marking, index)],
  }));
  const isClear = clearOf(strip);
  return together(
    outline(scale, strip),
    laidMarks(foot, marks, base, { class: 'scale' }),
    element(
      'g',
      { class: 'scale-numbers', 'font-size': 12 },
      ...marks
        .filter(({ index, x }) => index % marking.number === 0 && isClear(x))
        .map(({ index, x }) => {
          const number = markNumber(scale, index);
          return foot === null
            ? label(x, base - 29, number)
            : label(base - 29, foot - x + 4, number, { 'text-anchor': 'end' });
        }),
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
  const { base, foot, left } = strip;
  const top = base - (foot === null ? STRIP_HEIGHT : UPRIGHT_WIDTH);
  const isBeginning = scale.from !== null && R.compare(strip.from, scale.from) < 0;
  const right = placeOn(strip, strip.to);
  return together(
    laidStrokes(foot, [
      [left, top, right, top],
      [left, base, right, base],
    ]),
    isBeginning ? laidStrokes(foot, [[left, top, left, base]]) : tornEdge(left, top, base, foot),
    tornEdge(right, top, base, foot),
  );
}

/** The torn edge of a scale that goes on: a line to and fro. */
export function tornEdge(x: Coordinate, top: number, bottom: number, foot: Foot = null): Svg {
  const steps = 6;
  const middle = typeof x === 'number' ? x : placed(x);
  const points = Array.from({ length: steps + 1 }, (_, at) => {
    const aside = at === 0 || at === steps ? 0 : at % 2 === 0 ? -3 : 3;
    return [middle + aside, top + ((bottom - top) * at) / steps] as const;
  });
  const lines = points.slice(1).map((point, at) => [...points[at]!, ...point] as const);
  return laidStrokes(foot, lines, { class: 'torn', 'stroke-width': 0.8 });
}
