import type * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import type { Unit } from '../engine/unit.ts';
import { evaluateStated } from '../language/evaluate-in.ts';
import type { Facts } from '../language/facts.ts';
import type { Stated } from '../language/measurement.ts';
import { shownValue } from '../render/shown-value.ts';
import { comparable } from './agreement.ts';
import { asTypedFraction } from './typed-fraction.ts';
import { isTenfold } from './typed-number.ts';

/**
 * A value in the unit and the form of what is stated beside it: `51° 40′` where the choices of a question are in degrees
 * and minutes, `1/128 in` where they are fractions, `9.79 × 10^7 N/m^2` where they have a power of ten.
 */
export function shownLike(facts: Facts, value: Q.Quantity, beside: readonly Stated[]): string {
  for (const stated of beside) {
    const answer = evaluateStated(facts, stated, value.dimension);
    const truth = answer.ok ? comparable(value, answer.quantity)?.truth : undefined;
    if (!answer.ok || truth === undefined) continue;
    const { unit } = answer.quantity;
    const fraction = asTypedFraction(truth, answer.quantity, stated.text);
    if (fraction !== null) return fraction;
    const tenfold = isTenfold(stated.text);
    return FINER.test(beside.map(({ text }) => text).join(' '))
      ? shownInParts(truth, unit, beside)
      : shownValue(truth, { unit, tenfold });
  }
  return shownValue(value);
}

const FINER = /[′″'"]|arcmin|arcsec/;
const SECONDS = /[″"]|''|arcsec/;

/** An angle in degrees and minutes, to the second or the minute as the others are where it has no end. */
function shownInParts(value: Q.Quantity, unit: Unit | null, beside: readonly Stated[]): string {
  const text = shownValue(value, { unit, sexagesimal: true });
  const degrees = S.realValue(value.scalar);
  if (!text.includes('.') || degrees === null || value.dimension.angle !== 1) return text;
  const part = R.rational(1, beside.some(stated => SECONDS.test(stated.text)) ? 3600 : 60);
  const rounded = S.real(R.roundTo(degrees, part, 'half-even'));
  return shownValue({ ...value, scalar: rounded }, { unit, sexagesimal: true });
}
