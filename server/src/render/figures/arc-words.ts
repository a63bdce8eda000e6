import { toDecimalText } from '../../engine/decimal-text.ts';
import * as R from '../../engine/rational.ts';

const SIXTY = R.rational(60);

/**
 * An angle in degrees as it is engraved on an arc: `12°`, `12° 30′`; on a full circle degrees come round again.
 *
 * Parts of a second that do not end are left to a decimal of degrees.
 */
export function angleText(degrees: R.Rational, around: R.Rational | null): string {
  const value = around === null ? degrees : R.modulo(degrees, around);
  const size = R.abs(value);
  const sign = R.sign(value) < 0 ? '−' : '';
  const whole = R.floor(size);
  const minutes = R.multiply(R.subtract(size, whole), SIXTY);
  const wholeMinutes = R.floor(minutes);
  const seconds = R.multiply(R.subtract(minutes, wholeMinutes), SIXTY);
  const places = R.terminatingPlaces(seconds);
  if (places === null || places > 2) return `${sign}${toDecimalText(size, 4)}°`;
  const parts = [
    R.isZero(whole) && !R.isZero(minutes) ? '' : `${R.toFractionText(whole)}°`,
    R.isZero(wholeMinutes) ? '' : `${R.toFractionText(wholeMinutes)}′`,
    R.isZero(seconds) ? '' : `${toDecimalText(seconds, places)}″`,
  ];
  return sign + parts.filter(part => part !== '').join(' ');
}
