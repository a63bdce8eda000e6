import * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import { roundsTo } from '../engine/rounds-to.ts';
import type { Facts } from '../language/facts.ts';
import type { Stated, Subject } from '../language/measurement.ts';
import { comparable, type StatedValue } from './agreement.ts';
import { isWorkedOut, roundingPlace } from './right-value.ts';
import { isTenfold } from './typed-number.ts';

/**
 * Whether a whole number is the right value rounded to tens, hundreds …, as far as the data let a result be rounded:
 * `5880 Å` for 5875 Å where 100 Å are unsure.
 *
 * The noughts at its end fill the places up; with a power of ten, or where the data carry the unit, they are digits.
 */
export function isRoundedToTens(
  { isValue, text }: Stated,
  facts: Facts,
  subject: Subject,
  truth: Q.Quantity,
  value: StatedValue,
): boolean {
  const { unit } = value.quantity;
  const isWhole = value.place !== null && R.equals(value.place, unit?.factor ?? R.ONE);
  if (!isWhole || !isValue || !isWorkedOut(subject) || isTenfold(text)) return false;
  const pair = comparable(truth, value.quantity);
  const coarsest = pair === null ? null : roundingPlace(facts, subject, unit);
  if (pair === null || coarsest === null || coarsest >= 0) return false;
  const [right, written] = [pair.truth, pair.stated].map(each => Q.numberIn(each, unit));
  if (right == null || written == null || R.isZero(written)) return false;
  for (let place = R.TEN, power = -1; power >= coarsest; power--, place = R.multiply(place, R.TEN))
    if (roundsTo(right, written, place, facts.measurement.halves)) return true;
  return false;
}
