import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import * as P from '../../server/src/engine/polynomial.ts';
import { polynomialGcd } from '../../server/src/engine/polynomial-gcd.ts';
import * as R from '../../server/src/engine/rational.ts';

const letters = ['k', 'w', 'x'].map(name => P.letter(name, 'positive'));
const term = fc.tuple(
  fc.bigInt(-6n, 6n),
  fc.array(fc.integer({ min: 0, max: 1 }), { minLength: 3, maxLength: 3 }),
);
const polynomial = fc.array(term, { minLength: 1, maxLength: 3 }).map(terms => {
  let sum: P.Polynomial = P.NOUGHT;
  for (const [coefficient, powers] of terms) {
    let product = P.constant(R.rational(coefficient));
    powers.forEach((power, i) => {
      if (power === 1) product = P.multiply(product, letters[i]!)!;
    });
    sum = P.add(sum, product);
  }
  return sum;
});

describe('the greatest common divisor of two sums', () => {
  test('divides both, and holds every factor that was put into both', () => {
    fc.assert(
      fc.property(polynomial, polynomial, polynomial, (a, b, shared) => {
        if (a.length === 0 || b.length === 0 || shared.length === 0) return;
        const [left, right] = [P.multiply(a, shared)!, P.multiply(b, shared)!];
        const found = polynomialGcd(left, right);
        expect(P.divideExactly(left, found)).not.toBeNull();
        expect(P.divideExactly(right, found)).not.toBeNull();
        expect(P.divideExactly(found, shared)).not.toBeNull();
      }),
      { numRuns: 400 },
    );
  });

  test('what is left after it has only numbers in common', () => {
    fc.assert(
      fc.property(polynomial, polynomial, (a, b) => {
        if (a.length === 0 || b.length === 0) return;
        const found = polynomialGcd(a, b);
        const rest = polynomialGcd(P.divideExactly(a, found)!, P.divideExactly(b, found)!);
        expect(P.constantValue(rest)).not.toBeNull();
      }),
      { numRuns: 300 },
    );
  });

  test('(k^2 - 1) and (k - 1)^2 share k - 1', () => {
    const k = P.letter('k', 'count');
    const minus = P.subtract(k, P.UNITY);
    const found = polynomialGcd(P.multiply(minus, P.add(k, P.UNITY))!, P.multiply(minus, minus)!);
    expect(P.subtract(found, minus)).toEqual([]);
  });

  test('a number put in that happens to be a root misleads nobody', () => {
    const [k, w, x] = [letters[0]!, letters[1]!, letters[2]!];
    const shared = P.add(w, x);
    const other = P.add(P.add(P.scale(w, R.TWO), P.scale(k, R.rational(6))), P.UNITY);
    const top = P.multiply(P.multiply(shared, P.subtract(k, x))!, other)!;
    expect(P.subtract(polynomialGcd(top, P.multiply(shared, shared)!), shared)).toEqual([]);
  });

  test('a hostile pair gives a divisor all the same', () => {
    const sum = (from: number): P.Polynomial =>
      Array.from({ length: 4 }, (_, i) => P.letter(`v${from + i}`, 'positive')).reduce(P.add, P.UNITY);
    const [a, b] = [P.multiply(sum(0), sum(2))!, P.multiply(sum(1), sum(4))!];
    expect(P.divideExactly(a, polynomialGcd(a, b))).not.toBeNull();
  });
});
