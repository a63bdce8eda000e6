import { toSignificantText } from './decimal-text.ts';
import * as P from './polynomial.ts';
import { polynomialGcd } from './polynomial-gcd.ts';
import * as R from './rational.ts';

/**
 * A value in letters, such as (2k - 1)w/(2k): one sum over another, in lowest terms.
 *
 * Whole coefficients without a common divisor, and a denominator whose first term is positive. `exact` is false where a
 * number in it comes from a root or a trigonometric function; then the coefficients have 50 figures.
 */
export interface Formula {
  readonly numerator: P.Polynomial;
  readonly denominator: P.Polynomial;
  readonly exact: boolean;
}

/** Coefficients of an inexact formula are carried to this many figures, and count as equal when 30 agree. */
const FIGURES = 50;
const LIKENESS = R.rational(1n, 10n ** 30n);
const SHOWN_FIGURES = 15;
const HIGHEST_POWER = 60;
/** A coefficient this small beside the ones it came from is nothing but rounding. */
const CANCELLATION = R.rational(1n, 10n ** 40n);

/** One letter as a formula: `w` for any length, `k` for any whole number. */
export function letterFormula(name: string, domain: P.Domain): Formula {
  return { numerator: P.letter(name, domain), denominator: P.UNITY, exact: true };
}

/** A plain number as a formula. */
export function constantFormula(value: R.Rational, exact = true): Formula {
  return (
    reduced(P.constant(value), P.UNITY, exact) ?? {
      numerator: P.constant(value),
      denominator: P.UNITY,
      exact,
    }
  );
}

/** The number that a formula without letters is; null where letters are left. */
export function constantValue(f: Formula): R.Rational | null {
  const top = P.constantValue(f.numerator);
  const bottom = P.constantValue(f.denominator);
  return top === null || bottom === null ? null : R.divide(top, bottom);
}

/** The formula with an inexact number put in for one of its letters; null where it grows past what is worked with. */
export function withNumber(f: Formula, name: string, value: R.Rational): Formula | null {
  const inserted = (a: P.Polynomial): P.Polynomial =>
    a.reduce<P.Polynomial>((sum, term) => {
      const times = term.monomial.find(factor => factor.letter.name === name)?.exponent ?? 0;
      let coefficient = term.coefficient;
      for (let i = 0; i < times; i += 1)
        coefficient = R.rationalRoundFigures(R.multiply(coefficient, value), FIGURES);
      return P.add(sum, [
        { coefficient, monomial: term.monomial.filter(factor => factor.letter.name !== name) },
      ]);
    }, P.NOUGHT);
  const bottom = inserted(f.denominator);
  return bottom.length === 0 ? null : reduced(inserted(f.numerator), bottom, false);
}

/** Whether a letter occurs in it. */
export function holds(f: Formula, name: string): boolean {
  return [f.numerator, f.denominator].some(sum =>
    sum.some(term => term.monomial.some(factor => factor.letter.name === name)),
  );
}

/** Whether no other letter than the one named occurs in it. */
export function holdsOnly(f: Formula, name: string): boolean {
  const only = (a: P.Polynomial): boolean =>
    a.every(term => term.monomial.every(factor => factor.letter.name === name));
  return only(f.numerator) && only(f.denominator);
}

/** f + g over a common denominator; null where it grows past what is worked with. */
export function add(f: Formula, g: Formula): Formula | null {
  const exact = f.exact && g.exact;
  if (samePolynomial(f.denominator, g.denominator)) {
    return reduced(sum(f.numerator, g.numerator, exact), f.denominator, exact);
  }
  const left = P.multiply(f.numerator, g.denominator);
  const right = P.multiply(g.numerator, f.denominator);
  const denominator = P.multiply(f.denominator, g.denominator);
  return left === null || right === null || denominator === null
    ? null
    : reduced(sum(left, right, exact), denominator, exact);
}

/** -f: every term on the other side of zero. */
export function negate(f: Formula): Formula {
  return { ...f, numerator: P.scale(f.numerator, R.negate(R.ONE)) };
}

/** f - g over a common denominator; null where it grows past what is worked with. */
export function subtract(f: Formula, g: Formula): Formula | null {
  return add(f, negate(g));
}

/** f × g in lowest terms; null where it grows past what is worked with. */
export function multiply(f: Formula, g: Formula): Formula | null {
  const top = P.multiply(f.numerator, g.numerator);
  const bottom = P.multiply(f.denominator, g.denominator);
  return top === null || bottom === null ? null : reduced(top, bottom, f.exact && g.exact);
}

/** f / g in lowest terms; null where it grows past what is worked with, and for g = 0. */
export function divide(f: Formula, g: Formula): Formula | null {
  return g.numerator.length === 0
    ? null
    : multiply(f, { numerator: g.denominator, denominator: g.numerator, exact: g.exact });
}

/** f multiplied by itself n times, n negative too; null where it grows past what is worked with, and for 0 to a negative power. */
export function power(f: Formula, n: number): Formula | null {
  if (!Number.isInteger(n) || Math.abs(n) > HIGHEST_POWER) return null;
  const one = constantFormula(R.ONE);
  let base = n < 0 ? divide(one, f) : f;
  let result: Formula | null = one;
  for (let rest = Math.abs(n); rest > 0 && result !== null; rest = Math.floor(rest / 2)) {
    if (base === null) return null;
    if (rest % 2 === 1) result = multiply(result, base);
    if (rest > 1) base = multiply(base, base);
  }
  return base === null ? null : result;
}

/** On which side of zero, whatever the letters stand for; undefined where that cannot be proved. */
export function sign(f: Formula): -1 | 0 | 1 | undefined {
  const top = P.sign(f.numerator);
  if (top === 0) return 0;
  const bottom = P.sign(f.denominator);
  return top === undefined || bottom === undefined || bottom === 0 ? undefined : top === bottom ? 1 : -1;
}

/** Whether both are the same value for all letters: multiplied crosswise, so the way they are written does not count. */
export function equals(f: Formula, g: Formula): boolean {
  const left = P.product(f.numerator, g.denominator);
  const right = P.product(g.numerator, f.denominator);
  return f.exact && g.exact ? samePolynomial(left, right) : alike(left, right);
}

/** The value with numbers put in for the letters; null where one is missing or the denominator comes to nought. */
export function evaluate(f: Formula, values: ReadonlyMap<string, R.Rational>): R.Rational | null {
  const top = P.evaluate(f.numerator, values);
  const bottom = P.evaluate(f.denominator, values);
  return top === null || bottom === null ? null : R.divide(top, bottom);
}

/**
 * The formula as it is written in one line: `w/(2k)`, `(2k - 1)w/(2k)`, `k^2 w`.
 *
 * The same formula always gives the same text, and the text reads as the same formula in ordinary algebra.
 */
export function formulaText(f: Formula): string {
  const top = productText(f.numerator);
  if (samePolynomial(f.denominator, P.UNITY)) return top.text;
  const bottom = productText(f.denominator);
  const above = top.isSum ? `(${top.text})` : top.text;
  return `${above}/${bottom.isSum || bottom.isProduct ? `(${bottom.text})` : bottom.text}`;
}

interface Written {
  readonly text: string;
  readonly isSum: boolean;
  readonly isProduct: boolean;
}

function productText(a: P.Polynomial): Written {
  const lead = a[0];
  if (lead === undefined) return { text: '0', isSum: false, isProduct: false };
  if (a.length === 1) {
    const text = termText(lead.coefficient, lead.monomial);
    const isPlain =
      lead.monomial.length === 0 || (lead.monomial.length === 1 && R.equals(lead.coefficient, R.ONE));
    return { text, isSum: false, isProduct: !isPlain };
  }
  const shared = P.commonMonomial(a);
  const whole = a.every(term => R.isInteger(term.coefficient));
  const size = whole ? P.content(a) : R.ONE;
  const outside = R.sign(lead.coefficient) < 0 ? R.negate(size) : size;
  const sum = sumText(P.scale(P.withoutMonomial(a, shared), R.reciprocal(outside) ?? R.ONE));
  if (shared.length === 0 && R.equals(outside, R.ONE)) return { text: sum, isSum: true, isProduct: false };
  const before = R.equals(R.abs(outside), R.ONE) ? (R.sign(outside) < 0 ? '-' : '') : numberText(outside);
  return { text: `${before}(${sum})${monomialText(shared)}`, isSum: false, isProduct: true };
}

function sumText(a: P.Polynomial): string {
  let text = '';
  for (const term of a) {
    const minus = R.sign(term.coefficient) < 0;
    const joint = text === '' ? (minus ? '-' : '') : minus ? ' - ' : ' + ';
    text += joint + termText(R.abs(term.coefficient), term.monomial);
  }
  return text;
}

function termText(coefficient: R.Rational, monomial: P.Monomial): string {
  if (monomial.length === 0) return numberText(coefficient);
  const letters = monomialText(monomial);
  if (R.equals(coefficient, R.ONE)) return letters;
  if (R.equals(coefficient, R.negate(R.ONE))) return `-${letters}`;
  // 2 e1 must not read as twenty.
  return `${numberText(coefficient)}${/^e\d/i.test(letters) ? ' ' : ''}${letters}`;
}

function monomialText(monomial: P.Monomial): string {
  return monomial
    .map(factor => (factor.exponent === 1 ? factor.letter.name : `${factor.letter.name}^${factor.exponent}`))
    .join(' ');
}

function numberText(value: R.Rational): string {
  if (R.isInteger(value)) return R.toFractionText(value);
  // The noughts at the end say nothing among letters: 0.5w.
  return toSignificantText(value, SHOWN_FIGURES).replace(/\.?0+(?=$|e)/, '');
}

function reduced(numerator: P.Polynomial, denominator: P.Polynomial, exact: boolean): Formula | null {
  if (numerator.length === 0) return { numerator: P.NOUGHT, denominator: P.UNITY, exact };
  let top = numerator;
  let bottom = denominator;
  const shared = P.gcdMonomials(P.commonMonomial(top), P.commonMonomial(bottom));
  if (shared.length > 0) {
    top = P.withoutMonomial(top, shared);
    bottom = P.withoutMonomial(bottom, shared);
  }
  if (exact && top.length > 1 && bottom.length > 1) {
    const common = polynomialGcd(top, bottom);
    if (P.constantValue(common) === null) {
      top = P.divideExactly(top, common) ?? top;
      bottom = P.divideExactly(bottom, common) ?? bottom;
    }
  }
  const lead = bottom[0]!.coefficient;
  if (!exact && inProportion(top, bottom)) {
    top = P.constant(top[0]!.coefficient);
    bottom = P.constant(lead);
  }
  if (exact) {
    const ratio = R.divide(P.content(top), P.content(bottom)) ?? R.ONE;
    const side = R.rational(R.sign(lead));
    top = P.scale(primitive(top), R.multiply(side, R.rational(R.numerator(ratio))));
    bottom = P.scale(primitive(bottom), R.multiply(side, R.rational(R.denominator(ratio))));
  } else {
    top = rounded(P.scale(top, R.reciprocal(lead) ?? R.ONE));
    bottom = rounded(P.scale(bottom, R.reciprocal(lead) ?? R.ONE));
  }
  return P.fits(top) && P.fits(bottom) ? { numerator: top, denominator: bottom, exact } : null;
}

function primitive(a: P.Polynomial): P.Polynomial {
  return P.scale(a, R.reciprocal(P.content(a)) ?? R.ONE);
}

function rounded(a: P.Polynomial): P.Polynomial {
  return a.map(term => ({ ...term, coefficient: R.rationalRoundFigures(term.coefficient, FIGURES) }));
}

function samePolynomial(a: P.Polynomial, b: P.Polynomial): boolean {
  return (
    a === b ||
    (a.length === b.length &&
      a.every((term, i) => {
        const other = b[i]!;
        return (
          R.equals(term.coefficient, other.coefficient) &&
          P.compareMonomials(term.monomial, other.monomial) === 0
        );
      }))
  );
}

function sum(a: P.Polynomial, b: P.Polynomial, exact: boolean): P.Polynomial {
  const total = P.add(a, b);
  if (exact) return total;
  const least = R.multiply(R.max(largestCoefficient(a), largestCoefficient(b)), CANCELLATION);
  return total.filter(term => R.compare(R.abs(term.coefficient), least) > 0);
}

function alike(a: P.Polynomial, b: P.Polynomial): boolean {
  const allowed = R.multiply(largestCoefficient(a), LIKENESS);
  return P.subtract(a, b).every(term => R.compare(R.abs(term.coefficient), allowed) <= 0);
}

/** Whether one is a multiple of the other as far as inexact figures tell, so that no letter is left in the quotient. */
function inProportion(a: P.Polynomial, b: P.Polynomial): boolean {
  return a.length === b.length && alike(P.scale(a, b[0]!.coefficient), P.scale(b, a[0]!.coefficient));
}

function largestCoefficient(a: P.Polynomial): R.Rational {
  return a.reduce((largest, term) => R.max(largest, R.abs(term.coefficient)), R.ZERO);
}
