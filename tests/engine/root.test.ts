import fc from 'fast-check';
import { all, type BigNumber, create } from 'mathjs';
import { describe, expect, test } from 'vitest';
import { toSignificantText } from '../../server/src/engine/decimal-text.ts';
import * as R from '../../server/src/engine/rational.ts';
import { realPower, squareRoot } from '../../server/src/engine/root.ts';

const math = create(all!, { number: 'BigNumber', precision: 90 });
const big = (a: R.Rational): BigNumber =>
  math.bignumber(String(R.numerator(a))).div(math.bignumber(String(R.denominator(a))));
const positive = fc
  .tuple(fc.bigInt({ min: 1n, max: 10n ** 18n }), fc.bigInt({ min: 1n, max: 10n ** 18n }))
  .map(([n, d]) => R.rational(n, d));

describe('roots and fractional powers', () => {
  test('the square root agrees with another library', () => {
    fc.assert(
      fc.property(positive, a => {
        const missed = big(squareRoot(a, 50)).minus(big(a).sqrt()).abs();
        expect(missed.lte(big(a).sqrt().times('1e-49'))).toBe(true);
      }),
      { numRuns: 300 },
    );
  });

  test('a power agrees with another library', () => {
    fc.assert(
      fc.property(positive, fc.bigInt(-20n, 20n), fc.bigInt(2n, 30n), (a, p, q) => {
        const exponent = R.rational(p, q);
        const carried = realPower(a, exponent)!;
        const other = big(a).pow(big(exponent));
        expect(big(carried.value).minus(other).abs().lte(other.times('1e-47'))).toBe(true);
      }),
      { numRuns: 200 },
    );
  });

  test('a root that comes out is exact, any other is not', () => {
    fc.assert(
      fc.property(fc.bigInt(1n, 999n), fc.bigInt(1n, 999n), fc.bigInt(2n, 7n), (n, d, q) => {
        const exact = realPower(R.rational(n ** q, d ** q), R.rational(1n, q))!;
        expect(exact.exact).toBe(true);
        expect(R.equals(exact.value, R.rational(n, d))).toBe(true);
        const other = realPower(R.rational(n ** q + 1n), R.rational(1n, q))!;
        expect(other.exact).toBe(false);
      }),
      { numRuns: 300 },
    );
  });

  test('a squared root of three to fifty figures', () => {
    // OEIS A002194: from memory.
    expect(toSignificantText(squareRoot(R.rational(3), 50), 50)).toBe(
      '1.7320508075688772935274463415058723669428052538104',
    );
  });

  test('no value, or past the bounds', () => {
    expect(realPower(R.rational(-4), R.HALF)).toBeNull();
    expect(realPower(R.ZERO, R.rational(-1, 2))).toBeNull();
    expect(realPower(R.ZERO, R.HALF)).toEqual({ value: R.ZERO, exact: true });
    expect(realPower(R.TWO, R.rational(201))).toBeNull();
    expect(realPower(R.rational('1e60'), R.rational(401, 4))).toBeNull();
    expect(realPower(R.rational('1e-60'), R.rational(401, 4))).toBeNull();
    expect(realPower(R.TWO, R.rational(1n, 10n ** 40n))!.exact).toBe(false);
  });
});
