import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import * as P from '../../server/src/engine/polynomial.ts';
import * as R from '../../server/src/engine/rational.ts';

const LETTERS = ['k', 'n', 'w', 'x'] as const;
const DOMAINS = { k: 'count', n: 'count', w: 'positive', x: 'positive' } as const;

/** A polynomial as plain data: coefficient and the power of each letter; the second opinion adds these up itself. */
type Plain = readonly (readonly [bigint, readonly number[]])[];
const plain: fc.Arbitrary<Plain> = fc.array(
  fc.tuple(fc.bigInt(-9n, 9n), fc.array(fc.integer({ min: 0, max: 2 }), { minLength: 4, maxLength: 4 })),
  { maxLength: 4 },
);
const points = fc.array(fc.bigInt(1n, 20n), { minLength: 4, maxLength: 4 });

function build(terms: Plain): P.Polynomial {
  let sum: P.Polynomial = P.NOUGHT;
  for (const [coefficient, powers] of terms) {
    let product = P.constant(R.rational(coefficient));
    LETTERS.forEach((name, i) => {
      for (let times = 0; times < powers[i]!; times += 1)
        product = P.multiply(product, P.letter(name, DOMAINS[name]))!;
    });
    sum = P.add(sum, product);
  }
  return sum;
}

function directly(terms: Plain, at: readonly bigint[]): bigint {
  return terms.reduce((sum, [c, powers]) => sum + powers.reduce((p, e, i) => p * at[i]! ** BigInt(e), c), 0n);
}

function valueAt(p: P.Polynomial, at: readonly bigint[]): bigint {
  const value = P.evaluate(p, new Map(LETTERS.map((name, i) => [name, R.rational(at[i]!)])));
  return R.numerator(value!);
}

describe('sums of terms in letters', () => {
  test('sum, difference and product have the values that whole numbers give', () => {
    fc.assert(
      fc.property(plain, plain, points, (a, b, at) => {
        const [p, q] = [build(a), build(b)];
        expect(valueAt(p, at)).toBe(directly(a, at));
        expect(valueAt(P.add(p, q), at)).toBe(directly(a, at) + directly(b, at));
        expect(valueAt(P.subtract(p, q), at)).toBe(directly(a, at) - directly(b, at));
        expect(valueAt(P.multiply(p, q)!, at)).toBe(directly(a, at) * directly(b, at));
      }),
      { numRuns: 400 },
    );
  });

  test('terms stand in one order, whichever way they came', () => {
    fc.assert(
      fc.property(plain, terms => {
        const forwards = build(terms);
        const backwards = build([...terms].reverse());
        expect(P.subtract(forwards, backwards)).toEqual([]);
        expect(forwards.map(term => term.monomial)).toEqual(backwards.map(term => term.monomial));
        forwards.forEach((term, i) => {
          const next = forwards[i + 1];
          if (next !== undefined) expect(P.compareMonomials(term.monomial, next.monomial)).toBeLessThan(0);
        });
      }),
      { numRuns: 300 },
    );
  });

  test('a product divided by one factor gives the other, and nothing else does', () => {
    fc.assert(
      fc.property(plain, plain, (a, b) => {
        const [p, q] = [build(a), build(b)];
        if (q.length === 0) {
          expect(P.divideExactly(p, q)).toBeNull();
          return;
        }
        expect(P.subtract(P.divideExactly(P.multiply(p, q)!, q)!, p)).toEqual([]);
        if (P.constantValue(q) !== null) return;
        const spoilt = P.add(P.multiply(p, q)!, P.UNITY);
        expect(P.divideExactly(spoilt, q)).toBeNull();
      }),
      { numRuns: 300 },
    );
  });

  test('a sign is claimed only where every choice of letters has it', () => {
    fc.assert(
      fc.property(plain, fc.array(points, { minLength: 5, maxLength: 5 }), (terms, tries) => {
        const p = build(terms);
        const claimed = P.sign(p);
        if (claimed === undefined) {
          expect(p.length).toBeGreaterThan(0);
          return;
        }
        for (const at of tries) {
          const value = directly(terms, at);
          expect(value < 0n ? -1 : value > 0n ? 1 : 0).toBe(claimed);
        }
      }),
      { numRuns: 500 },
    );
  });

  test.each([
    // A count starts at one: 2k - 1 is positive, k - 1 may be nought, k - 2 may be either.
    { title: '2k - 1', coefficients: [-1, 2], expected: 1 },
    { title: 'k - 1', coefficients: [-1, 1], expected: undefined },
    { title: 'k - 2', coefficients: [-2, 1], expected: undefined },
    { title: '-k - 2', coefficients: [-2, -1], expected: -1 },
    { title: 'k^2 - k + 1', coefficients: [1, -1, 1], expected: 1 },
    { title: '0', coefficients: [], expected: 0 },
  ])('sign of $title for a count k', ({ coefficients, expected }) => {
    expect(P.sign(build(coefficients.map((c, power) => [BigInt(c), [power, 0, 0, 0]])))).toBe(expected);
  });

  test('what all terms share comes out', () => {
    const p = build([
      [4n, [1, 0, 2, 0]],
      [-6n, [1, 1, 1, 0]],
    ]);
    expect(R.toFractionText(P.content(p))).toBe('2');
    expect(P.commonMonomial(p).map(factor => `${factor.letter.name}${factor.exponent}`)).toEqual([
      'k1',
      'w1',
    ]);
    const rest = P.withoutMonomial(p, P.commonMonomial(p));
    expect(valueAt(rest, [1n, 2n, 3n, 1n])).toBe(4n * 3n - 6n * 2n);
  });

  test('growth ends', () => {
    let sum: P.Polynomial | null = P.UNITY;
    for (let i = 0; i < 30 && sum !== null; i += 1) {
      sum = P.multiply(sum, P.add(P.letter(`a${i}`, 'positive'), P.letter(`b${i}`, 'positive')));
    }
    expect(sum).toBeNull();
    expect(P.sign(P.letter('__proto__', 'positive'))).toBe(1);
  });
});
