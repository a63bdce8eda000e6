import { toDecimalText } from '../engine/decimal-text.ts';
import type * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import { roundsTo } from '../engine/rounds-to.ts';
import * as S from '../engine/scalar.ts';
import type { Claim } from '../language/measurement.ts';
import type { StatedValue } from './agreement.ts';

/** `percentage error of v = 0.014` says 0.014 % by its name and 1.4 % by its number; null where it is neither. */
export function shareInPercent(claim: Claim, { quantity, place }: StatedValue): string | null {
  const share = isPercentage(claim) && quantity.unit === null ? S.realValue(quantity.scalar) : null;
  if (share === null || place === null || R.isZero(share)) return null;
  const places = R.terminatingPlaces(place) ?? 0;
  return `${toDecimalText(R.multiply(share, R.rational(100)), Math.max(0, places - 2))} %`;
}

function isPercentage({ subject }: Claim): boolean {
  if (subject.kind !== 'statistic') return false;
  return subject.statistic === 'percentage error' || subject.statistic === 'percentage difference';
}

/** `ΔA/A × 100 = 1 %`: the hundred on the left belongs with its sign. */
export function isHundredth(truth: Q.Quantity, { quantity, place }: StatedValue): boolean {
  if (quantity.unit?.symbol !== '%' || place === null) return false;
  const right = S.realValue(truth.scalar);
  const stated = S.realValue(quantity.scalar);
  return (
    right !== null &&
    stated !== null &&
    roundsTo(R.multiply(right, R.rational(1, 100)), stated, place, 'either')
  );
}

/** `0.4/5 × 100 = 8 %`: the hundred belongs with its sign. */
export function isHundredfold(claim: Claim, truth: Q.Quantity, value: StatedValue): boolean {
  if (!isPercentage(claim) || value.quantity.unit !== null) return false;
  const ratio = S.divide(value.quantity.scalar, truth.scalar);
  const hundred = ratio === null ? null : S.realValue(ratio);
  // Numbers put in may be rounded, so the hundred need not come out to the last figure.
  const { place } = value;
  const right = S.realValue(truth.scalar);
  const stated = S.realValue(value.quantity.scalar);
  if (
    place !== null &&
    right !== null &&
    stated !== null &&
    roundsTo(R.multiply(right, R.rational(100)), stated, place, 'either')
  )
    return true;
  return hundred !== null && R.compare(R.abs(R.subtract(hundred, R.rational(100))), R.ONE) < 0;
}
