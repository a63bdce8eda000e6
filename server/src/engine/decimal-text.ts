import * as I from './integer.ts';
import { decimalExponent, type Rational, rationalRoundFigures } from './rational.ts';

/**
 * The number with so many decimal places, as it is written on the board: 2.5 to 2 places is `2.50`.
 *
 * A tie goes to the even digit where `mode` says nothing else. Negative places round to tens, hundreds …; a value that rounds to nought has no sign.
 */
export function toDecimalText(a: Rational, places: number, mode: I.Rounding = 'half-even'): string {
  return I.decimalText(I.roundedUnits(a.s * a.n, a.d, places, mode), places);
}

/**
 * The number with so many significant figures: 2/3 to 3 figures is `0.667`.
 *
 * A tie goes to the even digit. Plain where 1e-7 <= |a| < 1e21, else `1.23e-12`; trailing zeros are kept.
 */
export function toSignificantText(a: Rational, figures: number): string {
  if (a.n === 0n) return '0';
  const rounded = rationalRoundFigures(a, figures);
  const exponent = decimalExponent(rounded);
  if (-7 <= exponent && exponent < 21) return toDecimalText(rounded, figures - 1 - exponent);
  const digits = toDecimalText(
    exponent > 0 ? rounded.div(I.tenTo(exponent)) : rounded.mul(I.tenTo(-exponent)),
    figures - 1,
  );
  return `${digits}e${exponent}`;
}
