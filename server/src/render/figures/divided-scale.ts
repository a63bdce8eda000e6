import { toDecimalText } from '../../engine/decimal-text.ts';
import * as R from '../../engine/rational.ts';
import type { DividedScale } from './setting.ts';

/** How long a mark is drawn: a unit's, a half's, a tenth's, a finer one's. */
export type MarkRank = 'unit' | 'half' | 'tenth' | 'fine';

/** How a scale is marked and numbered: every so many divisions. */
export interface Marking {
  readonly number: number;
  readonly unit: number;
  readonly half: number | null;
  readonly tenth: number;
}

/** A step from number to number; a round one is a whole unit, ten or a tenth of it. */
interface NumberStep {
  readonly step: R.Rational;
  readonly isRound: boolean;
}

const LENGTHS = ['0.001', '0.01', '0.1', '1', '10', '100', '1000'].flatMap((ten): readonly NumberStep[] =>
  [1, 2, 5].map(times => ({ step: R.multiply(R.rational(ten), R.rational(times)), isRound: times === 1 })),
);
const ANGLES = ['1/60', '1/12', '1/6', '1/2', '1', '5', '10', '30', '90'].map((text): NumberStep => {
  const step = R.rational(text);
  return { step, isRound: R.isInteger(step) && text !== '5' };
});

/**
 * How a scale of the trade is marked: long marks with numbers, middle ones at the halves between them.
 *
 * `least` and `most` bound how many divisions lie from number to number.
 */
export function markingOf(
  scale: DividedScale,
  least = 4,
  most = Math.max(20, Math.ceil(WIDEST_STEP * least)),
): Marking {
  const number = numberedEvery(scale, least, most);
  const half = number % 2 === 0 && number > 2 ? number / 2 : null;
  const tenth = [number / 10, number / 5, number / 4, number / 6, 1].find(Number.isInteger) ?? 1;
  return { number, unit: number, half, tenth };
}

/** From any number on there is a one, a two or a five with noughts within this many times of it. */
const WIDEST_STEP = 2.5;

function numberedEvery({ isAngle, division }: DividedScale, least: number, most: number): number {
  let last: number | null = null;
  // A whole unit, ten or a tenth of it is numbered rather than twos and fives.
  for (const { step, isRound } of isAngle ? ANGLES : LENGTHS) {
    const divisions = wholeLots(step, division);
    if (divisions === null || divisions < least || divisions > most) continue;
    if (isRound) return divisions;
    last = divisions;
  }
  if (last !== null) return last;
  // An odd division: wherever its multiples can be written down.
  for (let divisions = least; divisions <= most; divisions++) {
    if (R.terminatingPlaces(R.multiply(division, R.rational(divisions))) !== null) return divisions;
  }
  return least;
}

/** How often one goes into the other; null where that is no whole number. */
function wholeLots(whole: R.Rational, part: R.Rational): number | null {
  const top = R.numerator(whole) * R.denominator(part);
  const bottom = R.denominator(whole) * R.numerator(part);
  return bottom > 0n && top % bottom === 0n ? Number(top / bottom) : null;
}

export function markRank(marking: Marking, index: number): MarkRank {
  if (index % marking.unit === 0) return 'unit';
  if (marking.half !== null && index % marking.half === 0) return 'half';
  return index % marking.tenth === 0 ? 'tenth' : 'fine';
}

/** The number at a mark as it is engraved: `3`, `29.8`; degrees come round again on a full circle. */
export function markNumber(scale: DividedScale, index: number): string {
  const place = R.multiply(scale.division, R.rational(index));
  const value = scale.around === null ? place : R.modulo(place, scale.around);
  const places = R.terminatingPlaces(value);
  if (places !== null && places <= 6) return toDecimalText(value, places).replace('-', '−');
  return R.toFractionText(value).replace('-', '−');
}

/** The mark at or before a place: its number of divisions from nought. */
export function markBefore(scale: DividedScale, place: R.Rational): number {
  return R.toInteger(R.floor(R.divide(place, scale.division) ?? R.ZERO)) ?? 0;
}

/** A number with at most three places, for words beside a drawing. */
export function roundedText(value: R.Rational): string {
  const places = R.terminatingPlaces(value);
  return places !== null && places <= 3 ? toDecimalText(value, places) : `about ${toDecimalText(value, 2)}`;
}

/** Every how many lines a vernier or a drum bears its number, so that some five stand on it. */
export function numberedLines(count: number): number {
  if (count <= 5) return 1;
  const choices = count <= 30 ? [5, 4, 3, 6, 2] : count <= 60 ? [10, 5, 6, 8, 4] : [10, 20, 5];
  return choices.find(every => count % every === 0) ?? (count <= 30 ? 5 : 10);
}

/** The same where all lines take so much paper, and a number wants so much of it; wherever they stand. */
export function numberedIn(count: number, length: number, room: number): number {
  let every = numberedLines(count);
  while (every < count && every * length < room * count * 1.1) every *= 2;
  return every;
}
