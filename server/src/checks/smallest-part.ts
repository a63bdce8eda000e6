import { sameDimension } from '../engine/dimension.ts';
import * as R from '../engine/rational.ts';
import { type Unit, unitWord } from '../engine/unit.ts';
import type { StatedValue } from './agreement.ts';

const PARTS = ['arcmin', 'arcsec', 'min', 's'].flatMap(word => unitWord(word) ?? []);

/**
 * The unit of the last part that is written: minutes for `24° 31′`, seconds for `5 min 20 s`, else the unit of the value.
 *
 * One in the last place of a decimal is a power of ten of its unit; one minute is no such part of a degree.
 */
export function smallestPart({ quantity, place }: StatedValue): Unit | null {
  const { unit } = quantity;
  // Only angles and times are written in parts.
  if (unit === null || place === null || (unit.dimension.angle === 0 && unit.dimension.time === 0))
    return unit;
  if (isPowerOfTen(R.divide(place, unit.factor))) return unit;
  const part = PARTS.find(
    finer =>
      sameDimension(finer.dimension, unit.dimension) &&
      R.compare(finer.factor, unit.factor) < 0 &&
      isPowerOfTen(R.divide(place, finer.factor)),
  );
  return part ?? unit;
}

/** Whether a value is written in parts of several units: `24° 31′`. */
export function isInParts(value: StatedValue): boolean {
  return smallestPart(value) !== value.quantity.unit;
}

function isPowerOfTen(value: R.Rational | null): boolean {
  if (value === null || R.sign(value) <= 0) return false;
  return R.equals(value, R.powerInteger(R.TEN, R.decimalExponent(value)) ?? R.ZERO);
}
