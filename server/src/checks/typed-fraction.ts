import * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import { unitShown } from '../engine/unit.ts';
import { powerApart, typedNumber } from './typed-number.ts';

/**
 * A right value as a fraction, where what is stated is one: `2 29/128 in` for `2 28/128 in`; null where it is none, or the
 * right value has no short one.
 */
export function asTypedFraction(truth: Q.Quantity, stated: Q.Quantity, text: string): string | null {
  const typed = typedNumber(text);
  if (typed?.shape.kind !== 'fraction' || powerApart(typed, stated) !== 0) return null;
  const { unit } = stated;
  const number = (unit === null ? null : Q.inUnit(truth, unit)) ?? truth.scalar;
  const real = S.isExact(number) ? S.realValue(number) : null;
  const fraction = real === null ? null : fractionText(real, typed.shape.below, typed.shape.isMixed);
  if (fraction === null) return null;
  return unit === null ? fraction : `${fraction} ${unitShown(unit)}`;
}

/** `2 29/128`, over what was typed where that goes, else in lowest terms; null where that is no short fraction. */
function fractionText(value: R.Rational, typedBelow: number, isMixed: boolean): string | null {
  if (R.isInteger(value)) return null;
  const size = R.abs(value);
  const typed = R.rational(typedBelow);
  const below = R.isInteger(R.multiply(size, typed)) ? typed : R.rational(R.denominator(size));
  if (R.compare(below, MOST_BELOW) > 0) return null;
  const whole = isMixed || R.compare(size, R.TEN) >= 0 ? R.floor(size) : R.ZERO;
  const above = R.multiply(R.subtract(size, whole), below);
  const sign = R.sign(value) < 0 ? '-' : '';
  const before = R.isZero(whole) ? '' : `${R.toFractionText(whole)} `;
  return `${sign}${before}${R.toFractionText(above)}/${R.toFractionText(below)}`;
}

const MOST_BELOW = R.rational(9999);
