import { toSignificantText } from './decimal-text.ts';
import { PI_50 } from './elementary.ts';
import * as F from './formula.ts';
import type { Domain } from './polynomial.ts';
import * as R from './rational.ts';
import { FIGURES, realPower } from './root.ts';
import { simpleNeighbour } from './simple-neighbour.ts';

/**
 * What a value is without its unit: a number, or a formula in the letters of the block.
 *
 * A number is exact unless a root, π or a trigonometric function came in; then it is carried to 50 significant
 * figures and says so.
 */
export type Scalar =
  | { readonly kind: 'real'; readonly value: R.Rational; readonly exact: boolean }
  | { readonly kind: 'formula'; readonly formula: F.Formula };

/** Two inexact numbers count as equal within this part of the larger one. */
const LIKENESS = R.rational(1n, 10n ** 30n);
/** A difference this many times smaller than what it came from is nothing but rounding. */
const CANCELLATION = 10n ** 40n;
const SAME_FRACTION = R.rational(1n, CANCELLATION);
const SHOWN_FIGURES = 15;
const PI_LETTER = F.letterFormula('pi', 'positive');
const MOST_SHIFTS = 3;
const LARGEST_POWER = 200;

/** A number as a scalar; say `exact = false` when it is rounded. */
export function real(value: R.Rational, exact = true): Scalar {
  return { kind: 'real', value, exact };
}

/** A letter that stands for any length, any whole number …: `w`, `k`. */
export function letter(name: string, domain: Domain): Scalar {
  return { kind: 'formula', formula: F.letterFormula(name, domain) };
}

export const PI: Scalar = real(PI_50, false);
export const NOUGHT: Scalar = real(R.ZERO);
export const UNITY: Scalar = real(R.ONE);

/**
 * What comes back where numbers or formulas grow past what the tool works with; it stays so whatever follows.
 *
 * Without a sign, equal to nothing, not a number: `isTooLarge` tells it.
 */
export const TOO_LARGE: Scalar = letter('too large', 'positive');

/** Whether a value grew past what the tool works with, some 308 digits or 40 terms. */
export function isTooLarge(a: Scalar): boolean {
  return a === TOO_LARGE;
}

/** a + b; exact when both are. */
export function add(a: Scalar, b: Scalar): Scalar {
  if (a.kind === 'real' && b.kind === 'real') {
    return a.exact && b.exact ? exactly(R.add(a.value, b.value)) : inexactSum(a.value, b.value, 1n);
  }
  return inLetters(F.add, a, b);
}

/** a - b; exact when both are. */
export function subtract(a: Scalar, b: Scalar): Scalar {
  if (a.kind === 'real' && b.kind === 'real') {
    return a.exact && b.exact ? exactly(R.subtract(a.value, b.value)) : inexactSum(a.value, b.value, -1n);
  }
  return inLetters(F.subtract, a, b);
}

/** a × b; exact when both are, and when one is nought. */
export function multiply(a: Scalar, b: Scalar): Scalar {
  if (a.kind === 'real' && b.kind === 'real') {
    if ((a.exact && b.exact) || isExactNought(a) || isExactNought(b))
      return exactly(R.multiply(a.value, b.value));
    const top = R.numerator(a.value) * R.numerator(b.value);
    return inexactRatio(top, R.denominator(a.value) * R.denominator(b.value));
  }
  return inLetters(F.multiply, a, b);
}

/** a / b; exact when both are. Null when b is nought. */
export function divide(a: Scalar, b: Scalar): Scalar | null {
  if (isZero(b)) return null;
  if (a.kind === 'real' && b.kind === 'real') {
    if ((a.exact && b.exact) || isExactNought(a)) return exactly(R.divide(a.value, b.value) ?? R.ZERO);
    const top = R.numerator(a.value) * R.denominator(b.value);
    const bottom = R.denominator(a.value) * R.numerator(b.value);
    return bottom < 0n ? inexactRatio(-top, -bottom) : inexactRatio(top, bottom);
  }
  return inLetters(F.divide, a, b);
}

/** -a. */
export function negate(a: Scalar): Scalar {
  if (a.kind === 'real') return real(R.negate(a.value), a.exact);
  return isTooLarge(a) ? a : { kind: 'formula', formula: F.negate(a.formula) };
}

/** |a|; null for a formula whose sign depends on its letters. */
export function abs(a: Scalar): Scalar | null {
  if (a.kind === 'real') return real(R.abs(a.value), a.exact);
  const side = sign(a);
  return isTooLarge(a) ? a : side === undefined ? null : side < 0 ? negate(a) : a;
}

/**
 * a to a power: D^3, 4^(1/2), k^-1.
 *
 * Exact where the root comes out, else to 50 figures; letters take whole powers only. Null where it has no value
 * (nought to a negative power, a root of a negative number); `TOO_LARGE` past a power of 200 or some 308 digits.
 */
export function power(a: Scalar, exponent: R.Rational): Scalar | null {
  const whole = R.toInteger(exponent);
  if (a.kind === 'formula') {
    if (isTooLarge(a)) return a;
    if (whole === null) return null;
    const formula = F.power(a.formula, whole);
    return formula === null ? TOO_LARGE : settled(formula);
  }
  if (R.isZero(a.value) && R.sign(exponent) < 0) return null;
  if (whole !== null && a.exact) {
    const value = R.powerInteger(a.value, whole);
    return value === null ? TOO_LARGE : real(value);
  }
  if (whole === null && R.sign(a.value) < 0) return null;
  if (whole !== null) return inexactPower(a, whole);
  const carried = realPower(a.value, exponent);
  if (carried === null) return TOO_LARGE;
  return a.exact && carried.exact ? exactly(carried.value) : inexactly(carried.value);
}

/** √a; exact for a perfect square, null for a negative number and for letters. */
export function sqrt(a: Scalar): Scalar | null {
  return power(a, R.HALF);
}

/** Which is larger: -1, 0 or 1; undefined where that depends on the letters. Inexact numbers within 1e-30 are equal. */
export function compare(a: Scalar, b: Scalar): -1 | 0 | 1 | undefined {
  if (a.kind === 'real' && b.kind === 'real') {
    if (!(a.exact && b.exact) && near(a.value, b.value)) return 0;
    return R.compare(a.value, b.value);
  }
  return equals(a, b) ? 0 : sign(subtract(a, b));
}

/** On which side of zero: -1, 0 or 1; undefined where that depends on the letters. */
export function sign(a: Scalar): -1 | 0 | 1 | undefined {
  if (a.kind === 'real') return R.sign(a.value);
  return isTooLarge(a) ? undefined : F.sign(a.formula);
}

/** Whether it is nought. */
export function isZero(a: Scalar): boolean {
  return a.kind === 'real' && R.isZero(a.value);
}

/** Whether both are the same: exact numbers exactly, inexact ones within 1e-30 of their size, formulas for all letters. */
export function equals(a: Scalar, b: Scalar): boolean {
  if (a.kind === 'real' && b.kind === 'real') {
    return a.exact && b.exact ? R.equals(a.value, b.value) : near(a.value, b.value);
  }
  if (isTooLarge(a) || isTooLarge(b)) return false;
  const [f, g] = [asFormula(a), asFormula(b)];
  if (f.exact && g.exact) return F.equals(f, g);
  const [left, right] = [withoutPi(f), withoutPi(g)];
  return left !== null && right !== null && F.equals(left, right);
}

/**
 * What is left of a when whole lots of b are taken away; `0 <= result < b` for b > 0.
 *
 * Null for b = 0, and where it depends on the letters how often b goes into a.
 */
export function modulo(a: Scalar, b: Scalar): Scalar | null {
  const quotient = divide(a, b);
  if (quotient === null) return null;
  const lots = floor(quotient);
  return lots === null ? null : subtract(a, multiply(b, lots));
}

/** The greatest whole number that is not above a; null where that depends on the letters. */
export function floor(a: Scalar): Scalar | null {
  if (isTooLarge(a)) return a;
  if (a.kind === 'formula') return floorInLetters(a);
  if (a.exact) return real(R.floor(a.value));
  const nearest = R.roundTo(a.value, R.ONE, 'half-even');
  return real(near(a.value, nearest) ? nearest : R.floor(a.value));
}

/** The number, exact or to 50 figures; null for a formula. */
export function realValue(a: Scalar): R.Rational | null {
  return a.kind === 'real' ? a.value : null;
}

/** Whether no root, no π and no trigonometric function came in. */
export function isExact(a: Scalar): boolean {
  return a.kind === 'real' ? a.exact : a.formula.exact;
}

/** The value as programs get it: `1/50`, a decimal of 15 figures where it is inexact, or the formula's text. */
export function scalarText(a: Scalar): string {
  if (a.kind === 'formula') return isTooLarge(a) ? 'too large' : F.formulaText(a.formula);
  return a.exact ? R.toFractionText(a.value) : toSignificantText(a.value, SHOWN_FIGURES);
}

/** Whether two numbers agree within 1e-30 of the larger one's size. */
export function near(a: R.Rational, b: R.Rational): boolean {
  const size = R.max(R.abs(a), R.abs(b));
  return R.compare(R.abs(R.subtract(a, b)), R.multiply(size, LIKENESS)) <= 0;
}

/** By repeated squaring, rounded at every step, so that no step has more than 50 figures to carry. */
function inexactPower(a: Scalar, whole: number): Scalar {
  if (Math.abs(whole) > LARGEST_POWER) return TOO_LARGE;
  let result = UNITY;
  let square = a;
  for (let rest = Math.abs(whole); rest > 0; rest = Math.floor(rest / 2)) {
    if (rest % 2 === 1) result = multiply(result, square);
    if (rest > 1) square = multiply(square, square);
  }
  return whole < 0 ? (divide(UNITY, result) ?? TOO_LARGE) : result;
}

function isExactNought(a: Scalar): boolean {
  return a.kind === 'real' && a.exact && R.isZero(a.value);
}

function exactly(value: R.Rational): Scalar {
  return R.isTooLarge(value) ? TOO_LARGE : { kind: 'real', value, exact: true };
}

function inexactly(value: R.Rational): Scalar {
  return inexactRatio(R.numerator(value), R.denominator(value));
}

function inexactRatio(top: bigint, bottom: bigint): Scalar {
  const rounded = R.roundedRatio(top, bottom, FIGURES);
  return R.isTooLarge(rounded) ? TOO_LARGE : { kind: 'real', value: rounded, exact: false };
}

/** What is left of two inexact numbers that cancel to the last figures is rounding and no value. */
function inexactSum(a: R.Rational, b: R.Rational, times: 1n | -1n): Scalar {
  const left = R.numerator(a) * R.denominator(b);
  const right = times * R.numerator(b) * R.denominator(a);
  const sum = left + right;
  const size = (sum < 0n ? -sum : sum) * CANCELLATION;
  const isRounding = size <= (left < 0n ? -left : left) && size <= (right < 0n ? -right : right);
  return isRounding ? real(R.ZERO, false) : inexactRatio(sum, R.denominator(a) * R.denominator(b));
}

function inLetters(work: (f: F.Formula, g: F.Formula) => F.Formula | null, a: Scalar, b: Scalar): Scalar {
  if (isTooLarge(a) || isTooLarge(b)) return TOO_LARGE;
  const formula = work(asFormula(a), asFormula(b));
  return formula === null ? TOO_LARGE : settled(formula);
}

/** A formula in which no letter is left, but perhaps π, is a number again; beside other inexact numbers π is one too. */
function settled(formula: F.Formula): Scalar {
  if (!formula.exact || F.holdsOnly(formula, 'pi')) return settledNumber(withoutPi(formula));
  return settledNumber(formula);
}

function settledNumber(formula: F.Formula | null): Scalar {
  if (formula === null) return TOO_LARGE;
  const constant = F.constantValue(formula);
  if (constant === null) return { kind: 'formula', formula };
  return formula.exact ? exactly(constant) : inexactly(constant);
}

function withoutPi(formula: F.Formula): F.Formula | null {
  return F.holds(formula, 'pi') ? F.withNumber(formula, 'pi', PI_50) : formula;
}

/** A number among letters keeps its π as a letter, so that pi w^2/4 stays exact. */
function asFormula(a: Scalar): F.Formula {
  if (a.kind === 'formula') return a.formula;
  if (a.exact) return F.constantFormula(a.value);
  for (const times of [1, -1, 2, -2]) {
    const piPower = F.power(PI_LETTER, times);
    const ratio = R.divide(a.value, R.powerInteger(PI_50, times) ?? R.ONE);
    const simple = ratio === null ? null : simpleNeighbour(ratio, SAME_FRACTION);
    const formula =
      simple === null || piPower === null ? null : F.multiply(F.constantFormula(simple), piPower);
    if (formula !== null) return formula;
  }
  return F.constantFormula(a.value, false);
}

function floorInLetters(a: Scalar): Scalar | null {
  const onwards = sign(a) === 1 ? 1 : -1;
  for (let lots = onwards === 1 ? 0 : -1; Math.abs(lots) <= MOST_SHIFTS; lots += onwards) {
    const above = sign(subtract(a, real(R.rational(lots))));
    const below = sign(subtract(a, real(R.rational(lots + 1))));
    if ((above === 0 || above === 1) && below === -1) return real(R.rational(lots));
    if (above === undefined || below === undefined) return null;
  }
  return null;
}
