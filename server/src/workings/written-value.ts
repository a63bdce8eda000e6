import { toDecimalText } from '../engine/decimal-text.ts';
import type { Expression } from '../engine/expression.ts';
import * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import { type Unit, unitShown, unitWord } from '../engine/unit.ts';
import { shownValue } from '../render/shown-value.ts';
import { joined, written } from './step-parts.ts';

/** How values of a block are written: in which unit, and angles in degrees and minutes or not. */
export interface Manner {
  readonly unit: Unit | null;
  readonly sexagesimal: boolean;
  /** At least so many decimal places, as the record has them: `6.0 mm`. */
  readonly atLeast?: number;
}

/**
 * A value as it is put into a formula: `2.45 cm`, `24° 30′`, `(3/7) cm` where its decimals never end, `w/(2k)`.
 *
 * Exact; a negative one is the negative of its size, so that it gets brackets behind another sign.
 */
export function exactValue(quantity: Q.Quantity, manner: Manner): Expression {
  const size = S.sign(quantity.scalar) === -1 ? Q.negate(quantity) : quantity;
  const value = sizeValue(size, manner);
  return size === quantity ? value : { kind: 'negate', of: value };
}

function sizeValue(quantity: Q.Quantity, { unit, sexagesimal, atLeast = 0 }: Manner): Expression {
  const shownIn = unit !== null && Q.inUnit(quantity, unit) !== null ? unit : quantity.unit;
  const shown = shownIn === null ? quantity : Q.withUnit(quantity, shownIn);
  if (sexagesimal && isSexagesimal(quantity))
    return written(shownValue(quantity, { sexagesimal: true }), shown);
  const number = shownIn === null ? null : Q.inUnit(quantity, shownIn);
  const real = number === null || !S.isExact(number) ? null : S.realValue(number);
  if (real === null || shownIn === null) return written(shownValue(shown), shown);
  const places = R.terminatingPlaces(real);
  if (places !== null && places <= MOST_PLACES)
    return written(withUnit(toDecimalText(real, Math.max(places, atLeast)), shownIn), shown);
  return { kind: 'measured', of: written(R.toFractionText(real), Q.plain(real)), unit: shownIn };
}

/** Longer decimals are written as the fractions that they are. */
const MOST_PLACES = 8;

function withUnit(number: string, unit: Unit): string {
  const shown = unitShown(unit);
  return shown === '' || /^[°′″](?![A-Za-z])/.test(shown) ? number + shown : `${number} ${shown}`;
}

const ARCSEC = unitWord('arcsec')!;

/** Whether an angle comes out in degrees, minutes and seconds with at most two decimals. */
export function isSexagesimal(quantity: Q.Quantity): boolean {
  const seconds = quantity.dimension.angle === 1 ? Q.inUnit(quantity, ARCSEC) : null;
  const value = seconds === null || !S.isExact(seconds) ? null : S.realValue(seconds);
  const places = value === null ? null : R.terminatingPlaces(value);
  return places !== null && places <= 2;
}

/** A number without a unit: a count of divisions, in letters too. */
export function plainNumber(count: S.Scalar): Expression {
  const real = S.realValue(count);
  if (real === null) return written(S.scalarText(count), Q.plain(count));
  const size = R.abs(real);
  const places = R.terminatingPlaces(size);
  const text =
    places !== null && places <= MOST_PLACES ? toDecimalText(size, places) : R.toFractionText(size);
  const value = written(text, Q.plain(size));
  return R.sign(real) < 0 ? { kind: 'negate', of: value } : value;
}

/** So many of a length: `4 × 0.5 mm`; a length of just one unit is not multiplied out: `4 mm`. */
export function countTimes(count: S.Scalar, one: Q.Quantity, manner: Manner): Expression {
  const unit = manner.unit ?? one.unit;
  const isUnit =
    unit !== null && !manner.sexagesimal && S.equals(one.scalar, S.real(unit.factor, unit.exact));
  if (isUnit && S.realValue(count) !== null)
    return exactValue({ ...one, scalar: S.multiply(count, one.scalar) }, manner);
  return joined('multiply', plainNumber(count), exactValue(one, manner));
}

/** One as many a part of another: `24/25`, `(2k - 1)/(2k)`; as it was recorded, not in lowest terms. */
export function share(above: S.Scalar, below: S.Scalar): Expression {
  if (S.equals(below, S.UNITY)) return plainNumber(above);
  const [top, bottom] = [S.realValue(above), S.realValue(below)];
  const quotient = S.divide(above, below);
  if (top === null || bottom === null || quotient === null || !R.isInteger(top) || !R.isInteger(bottom))
    return joined('divide', plainNumber(above), plainNumber(below));
  return written(`${R.toFractionText(top)}/${R.toFractionText(bottom)}`, Q.plain(quotient));
}

/** How many decimal places write a value in a unit in full; none where they never end, or are more than a scale has. */
export function decimalPlaces(value: Q.Quantity, unit: Unit | null): number {
  const number = unit === null ? null : Q.inUnit(value, unit);
  const real = number === null ? null : S.realValue(number);
  const places = real === null ? null : R.terminatingPlaces(real);
  return places === null || places > MOST_READ_PLACES ? 0 : places;
}

/** No scale is read to more places. */
const MOST_READ_PLACES = 4;
