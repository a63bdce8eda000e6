import * as R from './rational.ts';

/**
 * A sum of terms in letters, such as 2k w - w: the terms in a fixed order, none with a coefficient of nought.
 *
 * The empty sum is nought. Exact.
 */
export type Polynomial = readonly Term[];

/** What a letter may stand for: any positive quantity, or a count of divisions (a whole number from 1 up). */
export type Domain = 'positive' | 'count';

export interface Letter {
  readonly name: string;
  readonly domain: Domain;
}

export interface Factor {
  readonly letter: Letter;
  readonly exponent: number;
}

/** A product of powers of letters, in the order of their names, exponents from 1 up; the empty one is 1. */
export type Monomial = readonly Factor[];

export interface Term {
  readonly coefficient: R.Rational;
  readonly monomial: Monomial;
}

/** A sum with more terms, or a term of higher degree, is too large to be worked with. */
const MOST_TERMS = 40;
const HIGHEST_DEGREE = 60;

export const NOUGHT: Polynomial = [];
export const UNITY: Polynomial = [{ coefficient: R.ONE, monomial: [] }];

/** A plain number as a polynomial. */
export function constant(value: R.Rational): Polynomial {
  return R.isZero(value) ? NOUGHT : [{ coefficient: value, monomial: [] }];
}

/** One letter as a polynomial. */
export function letter(name: string, domain: Domain): Polynomial {
  return [{ coefficient: R.ONE, monomial: [{ letter: { name, domain }, exponent: 1 }] }];
}

/** The sum of two, like terms collected. */
export function add(a: Polynomial, b: Polynomial): Polynomial {
  if (a.length === 0) return b;
  if (b.length === 0) return a;
  const sum: Term[] = [];
  let i = 0;
  let j = 0;
  for (;;) {
    const left = a[i];
    const right = b[j];
    if (left === undefined && right === undefined) return sum;
    const order =
      left === undefined ? 1 : right === undefined ? -1 : compareMonomials(left.monomial, right.monomial);
    if (order < 0) {
      sum.push(left!);
      i += 1;
    } else if (order > 0) {
      sum.push(right!);
      j += 1;
    } else {
      const coefficient = R.add(left!.coefficient, right!.coefficient);
      if (!R.isZero(coefficient)) sum.push({ coefficient, monomial: left!.monomial });
      i += 1;
      j += 1;
    }
  }
}

/** a - b, like terms collected. */
export function subtract(a: Polynomial, b: Polynomial): Polynomial {
  return add(a, scale(b, R.negate(R.ONE)));
}

/** Every term times one number. */
export function scale(a: Polynomial, by: R.Rational): Polynomial {
  if (R.isZero(by)) return NOUGHT;
  return a.map(term => ({ coefficient: R.multiply(term.coefficient, by), monomial: term.monomial }));
}

/** The product, multiplied out and collected; null where it grows past what is worked with. */
export function multiply(a: Polynomial, b: Polynomial): Polynomial | null {
  let sum: Polynomial = NOUGHT;
  const [outer, inner] = a.length <= b.length ? [a, b] : [b, a];
  for (const term of outer) {
    sum = add(sum, multiplyByTerm(inner, term));
    // It would hardly come down again.
    if (sum.length > 4 * MOST_TERMS) return null;
  }
  return fits(sum) ? sum : null;
}

/** The product however large it is, for a comparison that nothing further is made of. */
export function product(a: Polynomial, b: Polynomial): Polynomial {
  const [outer, inner] = a.length <= b.length ? [a, b] : [b, a];
  return outer.reduce<Polynomial>((sum, term) => add(sum, multiplyByTerm(inner, term)), NOUGHT);
}

/** Every term times one term; the order of the terms stays. */
export function multiplyByTerm(a: Polynomial, by: Term): Polynomial {
  return a.map(term => ({
    coefficient: R.multiply(term.coefficient, by.coefficient),
    monomial: multiplyMonomials(term.monomial, by.monomial),
  }));
}

/** Whether it is small enough to work with: terms, degree and digits. */
export function fits(a: Polynomial): boolean {
  return (
    a.length <= MOST_TERMS &&
    a.every(term => degree(term.monomial) <= HIGHEST_DEGREE && !R.isTooLarge(term.coefficient))
  );
}

/** The number that a polynomial without letters is; null where letters are left. */
export function constantValue(a: Polynomial): R.Rational | null {
  const first = a[0];
  if (first === undefined) return R.ZERO;
  return first.monomial.length === 0 ? first.coefficient : null;
}

/** The value with numbers put in for the letters, exactly; null where a letter has none or powers grow too large. */
export function evaluate(a: Polynomial, values: ReadonlyMap<string, R.Rational>): R.Rational | null {
  let sum = R.ZERO;
  for (const term of a) {
    let product = term.coefficient;
    for (const factor of term.monomial) {
      const value = values.get(factor.letter.name);
      const power = value === undefined ? null : R.powerInteger(value, factor.exponent);
      if (power === null) return null;
      product = R.multiply(product, power);
    }
    sum = R.add(sum, product);
  }
  return sum;
}

/** What all terms share in number: dividing by it leaves whole coefficients without a common divisor; positive. */
export function content(a: Polynomial): R.Rational {
  let shared = R.ZERO;
  for (const term of a) shared = R.gcd(shared, term.coefficient);
  return R.isZero(shared) ? R.ONE : shared;
}

/** The letters that every term has in common, each to its lowest power. */
export function commonMonomial(a: Polynomial): Monomial {
  let shared = a[0]?.monomial ?? [];
  for (let i = 1; i < a.length && shared.length > 0; i += 1) shared = gcdMonomials(shared, a[i]!.monomial);
  return shared;
}

/** The terms with a monomial taken out of each, which each of them must hold. */
export function withoutMonomial(a: Polynomial, shared: Monomial): Polynomial {
  if (shared.length === 0) return a;
  return a.map(term => ({
    coefficient: term.coefficient,
    monomial: divideMonomials(term.monomial, shared) ?? [],
  }));
}

/** a / b where it comes out without a rest; null otherwise. */
export function divideExactly(a: Polynomial, b: Polynomial): Polynomial | null {
  const divisor = b[0];
  if (divisor === undefined) return null;
  const quotient: Term[] = [];
  let rest = a;
  while (rest.length > 0) {
    const lead = rest[0]!;
    const monomial = divideMonomials(lead.monomial, divisor.monomial);
    if (monomial === null || quotient.length > MOST_TERMS) return null;
    const term = { coefficient: R.divide(lead.coefficient, divisor.coefficient) ?? R.ZERO, monomial };
    quotient.push(term);
    rest = subtract(rest, multiplyByTerm(b, term));
  }
  return quotient;
}

/**
 * On which side of zero, whatever the letters stand for: -1, 0, 1, or undefined where that cannot be proved.
 *
 * Proved where all coefficients are alike after a count k is written as k' + 1 with k' from 0 up.
 */
export function sign(a: Polynomial): -1 | 0 | 1 | undefined {
  if (a.length === 0) return 0;
  const shifted = fromZeroUp(a);
  if (shifted === null) return undefined;
  const first = R.sign(shifted[0]!.coefficient);
  const alike = shifted.every(term => R.sign(term.coefficient) === first);
  // A term without a count cannot vanish, so the sum is strictly on its side.
  const never = shifted.some(term => term.monomial.every(factor => factor.letter.domain === 'positive'));
  return alike && never ? first : undefined;
}

function fromZeroUp(a: Polynomial): Polynomial | null {
  let sum: Polynomial = NOUGHT;
  for (const term of a) {
    let expanded: Polynomial = [{ coefficient: term.coefficient, monomial: [] }];
    for (const factor of term.monomial) {
      const power =
        factor.letter.domain === 'count'
          ? powerOfSuccessor(factor)
          : [{ coefficient: R.ONE, monomial: [factor] }];
      const next = multiply(expanded, power);
      if (next === null) return null;
      expanded = next;
    }
    sum = add(sum, expanded);
    if (sum.length > MOST_TERMS * MOST_TERMS) return null;
  }
  return sum;
}

/** (k' + 1)^n by the binomial theorem, highest power first. */
function powerOfSuccessor(factor: Factor): Polynomial {
  const terms: Term[] = [];
  let coefficient = 1n;
  for (let power = factor.exponent; power >= 0; power -= 1) {
    const monomial = power === 0 ? [] : [{ letter: factor.letter, exponent: power }];
    terms.push({ coefficient: R.rational(coefficient), monomial });
    coefficient = (coefficient * BigInt(power)) / BigInt(factor.exponent - power + 1);
  }
  return terms;
}

/** The fixed order of terms: higher degree first, then by the letters. */
export function compareMonomials(a: Monomial, b: Monomial): number {
  const byDegree = degree(b) - degree(a);
  if (byDegree !== 0) return byDegree;
  for (let i = 0; i < a.length && i < b.length; i += 1) {
    const byName = compareNames(a[i]!.letter.name, b[i]!.letter.name);
    if (byName !== 0) return byName;
    const byExponent = b[i]!.exponent - a[i]!.exponent;
    if (byExponent !== 0) return byExponent;
  }
  return b.length - a.length;
}

function compareNames(a: string, b: string): number {
  if (a === b) return 0;
  // As a tutor writes it: pi stands before the letters.
  if (a === 'pi' || b === 'pi') return a === 'pi' ? -1 : 1;
  return a < b ? -1 : 1;
}

function degree(a: Monomial): number {
  let sum = 0;
  for (const factor of a) sum += factor.exponent;
  return sum;
}

export function multiplyMonomials(a: Monomial, b: Monomial): Monomial {
  if (a.length === 0) return b;
  if (b.length === 0) return a;
  const product: Factor[] = [];
  let i = 0;
  let j = 0;
  while (i < a.length || j < b.length) {
    const left = a[i];
    const right = b[j];
    const order =
      left === undefined ? 1 : right === undefined ? -1 : compareNames(left.letter.name, right.letter.name);
    if (order === 0) product.push({ letter: left!.letter, exponent: left!.exponent + right!.exponent });
    else product.push(order < 0 ? left! : right!);
    if (order <= 0) i += 1;
    if (order >= 0) j += 1;
  }
  return product;
}

function divideMonomials(a: Monomial, b: Monomial): Monomial | null {
  const quotient: Factor[] = [];
  let j = 0;
  for (const factor of a) {
    const taken = b[j]?.letter.name === factor.letter.name ? b[j]!.exponent : 0;
    if (taken > factor.exponent) return null;
    if (taken > 0) j += 1;
    if (factor.exponent > taken) quotient.push({ letter: factor.letter, exponent: factor.exponent - taken });
  }
  return j === b.length ? quotient : null;
}

/** The letters that two terms share, each to the lower of its powers. */
export function gcdMonomials(a: Monomial, b: Monomial): Monomial {
  const shared: Factor[] = [];
  for (const factor of a) {
    const other = b.find(candidate => candidate.letter.name === factor.letter.name);
    if (other !== undefined)
      shared.push({ letter: factor.letter, exponent: Math.min(factor.exponent, other.exponent) });
  }
  return shared;
}
