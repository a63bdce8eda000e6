import { toDecimalText, toSignificantText } from '../engine/decimal-text.ts';
import * as R from '../engine/rational.ts';
import type { Halves } from '../engine/rounds-to.ts';

export interface NumberOptions {
  /** At least so many decimal places, as a reading shows its least count. */
  readonly atLeast?: number;
  /** Rounded to so many places where the exact value has more; negative ones round to tens, hundreds … */
  readonly atMost?: number;
  /** Which way a half goes in rounding: to the even digit, but where only the other way is allowed. */
  readonly halves?: Halves;
  /** With a power of ten: `9.8 × 10^7`; its places are still those of the whole number. */
  readonly tenfold?: boolean;
}

const USUAL_PLACES = 6;
const USUAL_FIGURES = 6;

/** Longer whole numbers, and decimals that begin further behind the point, are written with a power of ten. */
const LONGEST_WHOLE = 9;
const MOST_NOUGHTS = 4;

/**
 * A number as people write it: `2.484`, `9.8 × 10^7` where noughts in front of the point would pass for digits that are
 * known. Never rounded in binary.
 */
export function shownNumber(value: R.Rational, exact: boolean, options: NumberOptions): string {
  const isTenfold = options.tenfold === true || needsPower(value, exact, options);
  return isTenfold && !R.isZero(value)
    ? tenfoldText(value, exact, options)
    : decimalText(value, exact, options);
}

function needsPower(value: R.Rational, exact: boolean, { atLeast, atMost }: NumberOptions): boolean {
  if (atMost !== undefined) return atMost < 0;
  if (atLeast !== undefined || R.isZero(value)) return false;
  const exponent = R.decimalExponent(value);
  const whole = exact && R.isInteger(value) ? LONGEST_WHOLE : USUAL_FIGURES;
  return exponent >= whole || exponent < -MOST_NOUGHTS;
}

function decimalText(
  value: R.Rational,
  exact: boolean,
  { atLeast = 0, atMost, halves }: NumberOptions,
): string {
  const places = exact ? R.terminatingPlaces(value) : null;
  if (places !== null && places <= Math.max(atMost ?? USUAL_PLACES, atLeast))
    return toDecimalText(value, Math.max(places, atLeast));
  if (atMost !== undefined) return toDecimalText(value, Math.max(atMost, atLeast), rounding(halves));
  return toSignificantText(value, USUAL_FIGURES);
}

function tenfoldText(value: R.Rational, exact: boolean, options: NumberOptions): string {
  const { atLeast = Number.NEGATIVE_INFINITY, halves } = options;
  // What is smaller than its last place keeps one figure, so that it does not become nought.
  const first = -R.decimalExponent(value);
  const most = Math.max(options.atMost ?? first + USUAL_FIGURES - 1, atLeast, first);
  const place = R.powerInteger(R.TEN, -most);
  const rounded = place === null ? value : R.roundTo(value, place, rounding(halves));
  const exponent = R.decimalExponent(rounded);
  const scale = R.powerInteger(R.TEN, -exponent);
  if (place === null || scale === null) return toSignificantText(value, USUAL_FIGURES);
  if (exponent === 0) return decimalText(value, exact, { ...options, atMost: Math.max(0, most) });
  const mantissa = R.multiply(rounded, scale);
  const isWhole = exact && R.equals(rounded, value);
  const places = isWhole ? Math.max(R.terminatingPlaces(mantissa) ?? 0, atLeast + exponent) : most + exponent;
  return `${toDecimalText(mantissa, Math.max(0, places))} × 10^${exponent}`;
}

function rounding(halves: Halves | undefined): 'half-away' | 'half-even' {
  return halves === 'away-from-zero' ? 'half-away' : 'half-even';
}
