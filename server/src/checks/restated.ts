import type * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import type { Facts } from '../language/facts.ts';
import { totalError } from '../language/facts-error.ts';
import type { Claim, Stated } from '../language/measurement.ts';
import { comparable, isReading, type StatedValue } from './agreement.ts';

/**
 * Whether a link says once more what the right one before it said: its numbers put together,
 * `(0.01 + 0.06 + 0.20)/3 = 0.27/3`, or its value in another unit, `2.70 g/cm^3 = 2700 kg/m^3`.
 *
 * Noughts before the point say nothing new there; decimals do, and what is not worked out any further is no result.
 */
export function restates(
  { subject }: Claim,
  { isValue }: Stated,
  value: StatedValue,
  before: StatedValue | null,
  isLast: boolean,
): boolean {
  if (before === null || isReading(subject)) return false;
  const pair = comparable(before.quantity, value.quantity);
  if (pair === null || !S.equals(pair.truth.scalar, pair.stated.scalar)) return false;
  if (!isValue || before.place === null) return !isLast;
  const { place, quantity } = value;
  return place !== null && R.compare(place, quantity.unit?.factor ?? R.ONE) >= 0;
}

/**
 * Whether two sides of an equation, `1/f = 1/u + 1/v`, come to the same as far as the last places of the values in it tell:
 * f may be a rounded value.
 */
export function isWithinData(
  facts: Facts,
  { subject }: Claim,
  truth: Q.Quantity,
  value: Q.Quantity,
): boolean {
  const pair = comparable(truth, value);
  const error = totalError(facts, subject, 'data');
  if (pair === null || !error.ok) return false;
  const most = comparable(pair.truth, error.quantity);
  const off = S.subtract(pair.truth.scalar, pair.stated.scalar);
  const size = off === null ? null : S.realValue(off);
  const right = most === null ? null : S.realValue(most.stated.scalar);
  return size !== null && right !== null && R.compare(R.abs(size), R.abs(right)) <= 0;
}
