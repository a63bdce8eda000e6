import { bitLength } from './integer.ts';
import * as P from './polynomial.ts';
import * as R from './rational.ts';

/** Whole numbers with more binary digits than this are not searched for a common divisor. */
const MOST_BITS = 6000;
const MOST_TRIES = 4;
/** Tries in one search, over all letters together. */
const MOST_TRIES_TOGETHER = 30;

interface Budget {
  tries: number;
}

/**
 * The largest polynomial that divides both, with whole coefficients and a positive first one.
 *
 * A number so large that the digits tell the coefficients apart is put in for each letter in turn; the common
 * divisor of the two whole numbers, written in that base, is the candidate, and counts only if it divides both
 * (the heuristic gcd of computer algebra). Gives 1 where the numbers would grow too large: then a fraction stays
 * longer than need be, and no less right.
 */
export function polynomialGcd(a: P.Polynomial, b: P.Polynomial): P.Polynomial {
  if (a.length === 0 || b.length === 0) return primitive(a.length === 0 ? b : a);
  const shared = P.gcdMonomials(P.commonMonomial(a), P.commonMonomial(b));
  const left = primitive(P.withoutMonomial(a, P.commonMonomial(a)));
  const right = primitive(P.withoutMonomial(b, P.commonMonomial(b)));
  const rest = quick(left, right) ?? search(left, right, { tries: MOST_TRIES_TOGETHER }) ?? P.UNITY;
  return P.multiplyByTerm(primitive(rest), { coefficient: R.ONE, monomial: shared });
}

/** One sum that goes into the other needs no search. */
function quick(a: P.Polynomial, b: P.Polynomial): P.Polynomial | null {
  if (a.length === 1 || b.length === 1) return P.UNITY;
  if (P.divideExactly(a, b) !== null) return b;
  return P.divideExactly(b, a) !== null ? a : null;
}

function search(a: P.Polynomial, b: P.Polynomial, budget: Budget): P.Polynomial | null {
  // The number put in may have been a root; nought is divided by everything.
  if (a.length === 0 || b.length === 0) return a.length === 0 ? b : a;
  const shared = R.gcd(P.content(a), P.content(b));
  const [left, right] = [primitive(a), primitive(b)];
  const letter = firstLetter(left) ?? firstLetter(right);
  if (letter === null || P.constantValue(left) !== null || P.constantValue(right) !== null)
    return P.constant(shared);
  const degree = Math.max(degreeIn(left, letter.name), degreeIn(right, letter.name));
  let base = 2n * R.numerator(R.min(largest(left), largest(right))) + 29n;
  for (let tries = 0; tries < MOST_TRIES; tries += 1) {
    budget.tries -= 1;
    if (bitLength(base) * degree > MOST_BITS || budget.tries < 0) return null;
    const found = search(inserted(left, letter.name, base), inserted(right, letter.name, base), budget);
    if (found === null) return null;
    const candidate = primitive(writtenInBase(found, letter, base));
    if (P.divideExactly(left, candidate) !== null && P.divideExactly(right, candidate) !== null) {
      return P.scale(candidate, shared);
    }
    // The usual ratio, which has no small factors in common with the last base.
    base = (base * 73_794n) / 27_011n;
  }
  return null;
}

/** The polynomial with a whole number put in for one letter. */
function inserted(a: P.Polynomial, name: string, value: bigint): P.Polynomial {
  return a.reduce<P.Polynomial>((sum, term) => {
    const factor = term.monomial.find(candidate => candidate.letter.name === name);
    const coefficient = R.multiply(term.coefficient, R.rational(value ** BigInt(factor?.exponent ?? 0)));
    return P.add(sum, [{ coefficient, monomial: term.monomial.filter(other => other !== factor) }]);
  }, P.NOUGHT);
}

/** The other way round: the digits of every coefficient in that base, from minus half of it up, are powers of the letter. */
function writtenInBase(a: P.Polynomial, letter: P.Letter, base: bigint): P.Polynomial {
  let sum: P.Polynomial = P.NOUGHT;
  for (const term of a) {
    let rest = R.numerator(term.coefficient);
    for (let exponent = 0; rest !== 0n; exponent += 1) {
      let digit = rest % base;
      if (2n * digit > base) digit -= base;
      if (2n * digit < -base) digit += base;
      rest = (rest - digit) / base;
      const power = exponent === 0 ? [] : [{ letter, exponent }];
      const monomial = P.multiplyMonomials(term.monomial, power);
      if (digit !== 0n) sum = P.add(sum, [{ coefficient: R.rational(digit), monomial }]);
    }
  }
  return sum;
}

function primitive(a: P.Polynomial): P.Polynomial {
  const lead = a[0];
  if (lead === undefined) return a;
  const shared = P.content(a);
  const factor = R.reciprocal(R.sign(lead.coefficient) < 0 ? R.negate(shared) : shared) ?? R.ONE;
  return R.equals(factor, R.ONE) ? a : P.scale(a, factor);
}

function firstLetter(a: P.Polynomial): P.Letter | null {
  for (const term of a) if (term.monomial[0] !== undefined) return term.monomial[0].letter;
  return null;
}

function degreeIn(a: P.Polynomial, name: string): number {
  return Math.max(...a.map(term => term.monomial.find(factor => factor.letter.name === name)?.exponent ?? 0));
}

function largest(a: P.Polynomial): R.Rational {
  let most = R.ZERO;
  for (const term of a) most = R.max(most, R.abs(term.coefficient));
  return most;
}
