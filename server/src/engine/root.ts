import { bitLength, integerRoot } from './integer.ts';
import * as R from './rational.ts';

/** Roots and fractional powers are carried to this many significant figures. */
export const FIGURES = 50;

/** Binary places of the fixed-point numbers below: 50 figures take 167, the rest is in hand. */
const PLACES = 272;
const LARGEST_EXPONENT = R.rational(200);
const LARGEST_ROOT = 1024n;

/** A number, and whether it is exactly that or only to 50 figures. */
export interface Carried {
  readonly value: R.Rational;
  readonly exact: boolean;
}

/**
 * The number to a power that need not be whole: 8^(1/3) is 2, 2^(1/2) is 1.4142…
 *
 * Exact where the root comes out, else to 50 figures. Null for a negative number, for nought to a power that is
 * not positive, past a power of 200, and where the result passes some 308 digits.
 */
export function realPower(a: R.Rational, exponent: R.Rational): Carried | null {
  if (R.compare(R.abs(exponent), LARGEST_EXPONENT) > 0 || R.sign(a) < 0) return null;
  if (R.isZero(a)) return R.sign(exponent) > 0 ? { value: R.ZERO, exact: true } : null;
  const degree = R.denominator(exponent);
  const top = exactRoot(R.numerator(a), degree);
  const bottom = top === null ? null : exactRoot(R.denominator(a), degree);
  if (top !== null && bottom !== null) {
    const value = R.powerInteger(R.rational(top, bottom), Number(R.numerator(exponent)));
    return value === null ? null : { value, exact: true };
  }
  if (degree === 2n && R.equals(exponent, R.HALF)) return { value: squareRoot(a, FIGURES), exact: false };
  const value = exponential((logarithm(a) * R.numerator(exponent)) / degree);
  return value === null ? null : { value, exact: false };
}

/** The square root of a number from 0 up, to so many significant figures. */
export function squareRoot(a: R.Rational, figures: number): R.Rational {
  const bottom = R.denominator(a);
  const root = integerRoot((R.numerator(a) * bottom) << BigInt(2 * PLACES), 2n);
  return R.roundedRatio(root, bottom << BigInt(PLACES), figures);
}

function exactRoot(a: bigint, n: bigint): bigint | null {
  if (a < 2n || n === 1n) return a;
  if (n > LARGEST_ROOT) return null;
  const root = integerRoot(a, n);
  return root ** n === a ? root : null;
}

/** The natural logarithm as a fixed-point number: ln(m × 2^e) = 2 artanh((m - 1)/(m + 1)) + e ln 2. */
function logarithm(a: R.Rational): bigint {
  const top = R.numerator(a);
  const bottom = R.denominator(a);
  const shift = BigInt(bitLength(top) - bitLength(bottom));
  const left = shift < 0n ? top << -shift : top;
  const right = shift > 0n ? bottom << shift : bottom;
  return artanhTwice(left - right, left + right) + shift * artanhTwice(1n, 3n);
}

function artanhTwice(top: bigint, bottom: bigint): bigint {
  const z = (top << BigInt(PLACES)) / bottom;
  const square = (z * z) >> BigInt(PLACES);
  let power = z;
  let sum = 0n;
  for (let n = 1n; power !== 0n && power !== -1n; n += 2n) {
    sum += power / n;
    power = (power * square) >> BigInt(PLACES);
  }
  return 2n * sum;
}

/** e to a fixed-point number; null where the result passes some 308 digits. */
function exponential(y: bigint): R.Rational | null {
  const ln2 = artanhTwice(1n, 3n);
  const doublings = y / ln2;
  if (doublings > 1000n || doublings < -1000n) return null;
  const rest = y - doublings * ln2;
  let term = 1n << BigInt(PLACES);
  let sum = 0n;
  for (let n = 1n; term !== 0n && term !== -1n; n += 1n) {
    sum += term;
    term = ((term * rest) >> BigInt(PLACES)) / n;
  }
  const one = 1n << BigInt(PLACES);
  return doublings >= 0n
    ? R.roundedRatio(sum << doublings, one, FIGURES)
    : R.roundedRatio(sum, one << -doublings, FIGURES);
}
