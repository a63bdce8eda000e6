import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
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
