import { isPlain } from '../engine/dimension.ts';
import { namesIn } from '../engine/evaluation.ts';
import * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import { type Unit, unitWord } from '../engine/unit.ts';
import type { Stated } from '../language/measurement.ts';

/** Whether something stated is made of numbers only, without any unit or name. */
function isBareNumber(stated: Stated, value: Q.Quantity): boolean {
  return isPlain(value.dimension) && namesIn(stated.expression).size === 0 && !stated.hasUnit;
}

/**
 * Whether a bare number stands where an angle has to be: it may be degrees or minutes as well as radians, so that it is
 * never compared as radians in silence. Nought is nought in any unit.
 */
export function lacksAngleUnit(stated: Stated, value: Q.Quantity, truth: Q.Quantity): boolean {
  return isAngle(truth) && isBareNumber(stated, value) && !S.isZero(value.scalar);
}

function isAngle({ dimension }: Q.Quantity): boolean {
  return dimension.angle !== 0 && isPlain({ ...dimension, angle: 0 });
}

const ANGLE_UNITS = ['deg', 'arcmin', 'arcsec', 'rad'].flatMap(word => unitWord(word) ?? []);

/** Only a number that is the right one in radians, or nearly so, was meant so. */
const NEAR_IN_RADIANS = R.rational(101, 100);

/** The right value in the unit that a bare number most likely has: of an angle the one in which it comes nearest. */
export function withLikelyUnit(truth: Q.Quantity, bare: Q.Quantity): Q.Quantity {
  const stated = S.realValue(bare.scalar);
  if (!isAngle(truth) || stated === null || R.isZero(stated)) return truth;
  let likely: { readonly unit: Unit; readonly off: R.Rational } | null = null;
  for (const unit of ANGLE_UNITS) {
    const off = timesOff(truth, stated, unit);
    if (off === null || (!unit.exact && R.compare(off, NEAR_IN_RADIANS) > 0)) continue;
    if (likely === null || R.compare(off, likely.off) < 0) likely = { unit, off };
  }
  return likely === null ? truth : Q.withUnit(truth, likely.unit);
}

/** How many times as large, or as small, as the right value a number is in a unit; signs count for nothing. */
function timesOff(truth: Q.Quantity, stated: R.Rational, unit: Unit): R.Rational | null {
  const number = Q.inUnit(truth, unit);
  const right = number === null ? null : S.realValue(number);
  const ratio = right === null ? null : R.divide(R.abs(stated), R.abs(right));
  const inverse = ratio === null ? null : R.reciprocal(ratio);
  return ratio === null || inverse === null ? null : R.max(ratio, inverse);
}
