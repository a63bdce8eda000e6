import Fraction from 'fraction.js';
import * as I from './integer.ts';

/**
 * A number as an exact fraction: 0.02 is 1/50 and stays 1/50 however often it is used.
 *
 * Always in lowest terms with a positive denominator. Treat as opaque and never change it.
 */
export type Rational = Fraction;

/** Numerators and denominators past this (about 308 digits) count as too large to work with. */
const SIZE_LIMIT = 1n << 1024n;

const LARGEST_POWER = 200;

const LARGEST_DECIMAL_DIGITS = 200;

const LARGEST_DECIMAL_EXPONENT = 60;

const DECIMAL = /^([+\-−]?)(\d*)(?:\.(\d*))?(?:[eE]([+\-−]?)(\d{1,3}))?$/;

/**
 * Writes a number of the program itself as a fraction: `rational(1, 50)`, `rational('0.02')`, `rational('1/50')`.
 *
 * A JavaScript number must be a whole one. Not for what somebody typed: see `parseDecimal`.
 */
export function rational(n: number | bigint | string, d: number | bigint = 1n): Rational {
  if (typeof n !== 'string') return new Fraction(wholeNumber(n), wholeNumber(d));
  const slash = n.indexOf('/');
  if (slash >= 0) return new Fraction(BigInt(n.slice(0, slash)), BigInt(n.slice(slash + 1)));
  const parsed = parseDecimal(n);
  if (parsed === null) throw new RangeError(`not a number: ${n}`);
  return parsed;
}

function wholeNumber(n: number | bigint): bigint {
  if (typeof n === 'number' && !Number.isSafeInteger(n)) throw new RangeError(`not a whole number: ${n}`);
  return BigInt(n);
}

export const ZERO: Rational = new Fraction(0n, 1n);

export const ONE: Rational = new Fraction(1n, 1n);

export const TWO: Rational = new Fraction(2n, 1n);

export const HALF: Rational = new Fraction(1n, 2n);

export const TEN: Rational = new Fraction(10n, 1n);

/**
 * Reads a decimal as it is typed: `2.45`, `.5`, `-3`, `2.5e-3`; exact, so 0.1 is 1/10.
 *
 * Null for anything else, and past 200 digits or an exponent of 60 either way.
 */
export function parseDecimal(text: string): Rational | null {
  if (text.length > LARGEST_DECIMAL_DIGITS + 8) return null;
  const match = DECIMAL.exec(text);
  if (match === null) return null;
  const whole = match[2] ?? '';
  const places = match[3] ?? '';
  if (whole.length + places.length === 0 || whole.length + places.length > LARGEST_DECIMAL_DIGITS)
    return null;
  const magnitude = Number(match[5] ?? '0');
  if (magnitude > LARGEST_DECIMAL_EXPONENT) return null;
  const digits = BigInt(whole + places);
  const signed = match[1] === '' || match[1] === '+' ? digits : -digits;
  const shift =
    (match[4] === '' || match[4] === '+' || match[4] === undefined ? magnitude : -magnitude) - places.length;
  return shift >= 0 ? lowestTerms(signed * I.tenTo(shift), 1n) : lowestTerms(signed, I.tenTo(-shift));
}

/**
 * top / bottom in lowest terms, bottom above nought: the library's own result, reached without its search for what kind of
 * input it was given, and with ordinary numbers where both fit.
 */
function lowestTerms(top: bigint, bottom: bigint): Rational {
  const size = top < 0n ? -top : top;
  const common = I.commonDivisor(size, bottom);
  const result = Object.create(Fraction.prototype) as Fraction;
  result.s = top < 0n ? -1n : 1n;
  result.n = common === 1n ? size : size / common;
  result.d = common === 1n ? bottom : bottom / common;
  return result;
}

/** a + b, exactly. */
export function add(a: Rational, b: Rational): Rational {
  if (a.d === b.d) return lowestTerms(a.s * a.n + b.s * b.n, a.d);
  return lowestTerms(a.s * a.n * b.d + b.s * b.n * a.d, a.d * b.d);
}

/** a - b, exactly. */
export function subtract(a: Rational, b: Rational): Rational {
  if (a.d === b.d) return lowestTerms(a.s * a.n - b.s * b.n, a.d);
  return lowestTerms(a.s * a.n * b.d - b.s * b.n * a.d, a.d * b.d);
}

/** a × b, exactly. */
export function multiply(a: Rational, b: Rational): Rational {
  return lowestTerms(a.s * b.s * a.n * b.n, a.d * b.d);
}

/** a / b, exactly; null when b is zero. */
export function divide(a: Rational, b: Rational): Rational | null {
  return b.n === 0n ? null : lowestTerms(a.s * b.s * a.n * b.d, a.d * b.n);
}

/** -a: the same size on the other side of zero. */
export function negate(a: Rational): Rational {
  return a.neg();
}

/** |a|: the size without the sign. */
export function abs(a: Rational): Rational {
  return a.s < 0n ? a.abs() : a;
}

/** 1 / a; null for zero. */
export function reciprocal(a: Rational): Rational | null {
  return a.n === 0n ? null : a.inverse();
}

/** Which is larger: -1 when a < b, 0 when they are equal, 1 when a > b; exactly. */
export function compare(a: Rational, b: Rational): -1 | 0 | 1 {
  const left = a.s * a.n * b.d;
  const right = b.s * b.n * a.d;
  return left < right ? -1 : left > right ? 1 : 0;
}

/** Whether both are the same number, exactly. */
export function equals(a: Rational, b: Rational): boolean {
  return a.n === b.n && a.d === b.d && (a.s === b.s || a.n === 0n);
}

/** On which side of zero: -1, 0 or 1. */
export function sign(a: Rational): -1 | 0 | 1 {
  return a.n === 0n ? 0 : a.s < 0n ? -1 : 1;
}

/** Whether it is nought. */
export function isZero(a: Rational): boolean {
  return a.n === 0n;
}

/** Whether it is a whole number. */
export function isInteger(a: Rational): boolean {
  return a.d === 1n;
}

/** The smaller of the two. */
export function min(a: Rational, b: Rational): Rational {
  return compare(a, b) <= 0 ? a : b;
}

/** The larger of the two. */
export function max(a: Rational, b: Rational): Rational {
  return compare(a, b) >= 0 ? a : b;
}

/** The greatest whole number that is not above a: -1/2 gives -1. */
export function floor(a: Rational): Rational {
  return a.d === 1n ? a : new Fraction(I.floorDivision(a.s * a.n, a.d), 1n);
}

/** The least whole number that is not below a: -1/2 gives 0. */
export function ceil(a: Rational): Rational {
  return a.d === 1n ? a : new Fraction(-I.floorDivision(-a.s * a.n, a.d), 1n);
}

/**
 * What is left of a when whole lots of m are taken away: 7 modulo 2 is 1, and -1/2 modulo 2 is 3/2.
 *
 * a - m × floor(a / m), exact; `0 <= result < m` for m > 0, `m < result <= 0` for m < 0. Throws for m = 0, as
 * a scale never has a division of nothing: the caller has ruled it out.
 */
export function modulo(a: Rational, m: Rational): Rational {
  if (m.n === 0n) throw new RangeError('a remainder needs a divisor that is not nought');
  const times = I.floorDivision(a.s * a.n * m.d * m.s, a.d * m.n);
  return lowestTerms(a.s * a.n * m.d - times * m.s * m.n * a.d, a.d * m.d);
}

/**
 * a multiplied by itself n times: (3/2)^2 = 9/4, 2^-3 = 1/8.
 *
 * Exact. Null for nought to a negative power, past |n| = 200, and where the result passes some 308 digits.
 */
export function powerInteger(a: Rational, n: number): Rational | null {
  if (!Number.isInteger(n) || Math.abs(n) > LARGEST_POWER) return null;
  if (n < 0 && a.n === 0n) return null;
  const size = Math.abs(n);
  if (a === TEN) return n < 0 ? lowestTerms(1n, I.tenTo(size)) : lowestTerms(I.tenTo(size), 1n);
  if ((I.bitLength(a.n) - 1) * size > 1024 || (I.bitLength(a.d) - 1) * size > 1024) return null;
  const exponent = BigInt(size);
  const top = (a.s * a.n) ** exponent;
  const bottom = a.d ** exponent;
  const result =
    n < 0 ? new Fraction(top < 0n ? -bottom : bottom, top < 0n ? -top : top) : new Fraction(top, bottom);
  return isTooLarge(result) ? null : result;
}

/** Whether the fraction has grown past what the tool works with: numerator or denominator over some 308 digits. */
export function isTooLarge(a: Rational): boolean {
  return a.n >= SIZE_LIMIT || a.d >= SIZE_LIMIT;
}

/** The greatest common measure: the largest length that goes into both a whole number of times (never negative). */
export function gcd(a: Rational, b: Rational): Rational {
  return a.gcd(b);
}

/** The number above the line, with the sign. */
export function numerator(a: Rational): bigint {
  return a.s * a.n;
}

/** The number below the line, always positive. */
export function denominator(a: Rational): bigint {
  return a.d;
}

/** A whole number to count with; null for a fraction, and beyond what JavaScript counts exactly. */
export function toInteger(a: Rational): number | null {
  if (a.d !== 1n) return null;
  const value = Number(a.s * a.n);
  return Number.isSafeInteger(value) ? value : null;
}

/** Roughly how much: for drawing and for choosing between sizes, never for deciding what is right. */
export function toNumber(a: Rational): number {
  const direct = Number(a.s * a.n) / Number(a.d);
  if (Number.isFinite(direct)) return direct;
  const spare = BigInt(Math.max(I.bitLength(a.n), I.bitLength(a.d)) - 1000);
  return Number((a.s * a.n) >> spare) / Number(a.d >> spare);
}

/** How many decimal places write it in full: 1/50 needs 2, 12 needs 0; null where they never end, as for 1/3. */
export function terminatingPlaces(a: Rational): number | null {
  let rest = a.d;
  let twos = 0;
  let fives = 0;
  while ((rest & 1n) === 0n) {
    rest >>= 1n;
    twos += 1;
  }
  while (rest % 5n === 0n) {
    rest /= 5n;
    fives += 1;
  }
  return rest === 1n ? Math.max(twos, fives) : null;
}

/** The fraction in one line: `1/50`, `3`, `-7/2`. */
export function toFractionText(a: Rational): string {
  const top = (a.s * a.n).toString();
  return a.d === 1n ? top : `${top}/${a.d}`;
}

/** The number rounded to a whole multiple of `place` (which is positive), exactly. */
export function roundTo(a: Rational, place: Rational, mode: I.Rounding): Rational {
  return place.mul(new Fraction(I.roundedQuotient(a.s * a.n * place.d, a.d * place.n, mode), 1n));
}

/** The number with only so many significant figures left, a tie to the even one; bounds what a root or pi drags along. */
export function rationalRoundFigures(a: Rational, figures: number): Rational {
  return roundedRatio(a.s * a.n, a.d, figures);
}

/** top / bottom (which is positive) to so many significant figures, without the cost of its lowest terms before. */
export function roundedRatio(top: bigint, bottom: bigint, figures: number): Rational {
  if (top === 0n) return ZERO;
  const places = figures - 1 - I.firstDigitPower(top < 0n ? -top : top, bottom);
  const units = I.roundedUnits(top, bottom, places);
  if (places <= 0) return new Fraction(units * I.tenTo(-places), 1n);
  // Set as it is: a search for a common divisor would take longer than all the rest.
  const lowest = new Fraction();
  [lowest.n, lowest.d] = I.decimalTerms(units < 0n ? -units : units, places);
  lowest.s = units < 0n ? -1n : 1n;
  return lowest;
}

/** The power of ten of the first digit: 0 for 2.45, -2 for 0.02, 3 for 1500; a must not be zero. */
export function decimalExponent(a: Rational): number {
  return I.firstDigitPower(a.n, a.d);
}
