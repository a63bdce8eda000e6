import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { toDecimalText } from '../../server/src/engine/decimal-text.ts';
import * as R from '../../server/src/engine/rational.ts';

const whole = fc.bigInt({ min: -(10n ** 24n), max: 10n ** 24n });
const positive = fc.bigInt({ min: 1n, max: 10n ** 20n });
const pair = fc.tuple(whole, positive);
const of = ([n, d]: readonly [bigint, bigint]): R.Rational => R.rational(n, d);
/** Whether n/d is the same number as r, multiplied crosswise in whole numbers. */
const is = (r: R.Rational, n: bigint, d: bigint): boolean =>
  R.numerator(r) * d === n * R.denominator(r) && R.denominator(r) > 0n;

describe('reading a decimal', () => {
  test.each([
    ['2.45', 49n, 20n],
    ['.5', 1n, 2n],
    ['-3', -3n, 1n],
    ['−0.02', -1n, 50n],
    ['+007.10', 71n, 10n],
    ['2.5e-3', 1n, 400n],
    ['1E3', 1000n, 1n],
    ['0.000', 0n, 1n],
  ])('%s', (text, n, d) => {
    expect(is(R.parseDecimal(text)!, n, d)).toBe(true);
  });

  test.each([
    '',
    '.',
    '-',
    'e5',
    '1/2',
    '1,5',
    '1.2.3',
    '0x10',
    '1e',
    '1e61',
    '1e-61',
    ' 1',
    '٣',
    'NaN',
    '__proto__',
  ])('%j is none', text => {
    expect(R.parseDecimal(text)).toBeNull();
  });

  test('two hundred digits are read, one more is not', () => {
    expect(R.numerator(R.parseDecimal('9'.repeat(200))!)).toBe(10n ** 200n - 1n);
    expect(R.parseDecimal('9'.repeat(201))).toBeNull();
    expect(R.parseDecimal('1'.repeat(1_000_000))).toBeNull();
  });

  test('what is written in full reads as the same number', () => {
    fc.assert(
      fc.property(
        fc.bigInt({ min: -(10n ** 30n), max: 10n ** 30n }),
        fc.integer({ min: 0, max: 30 }),
        (n, decimals) => {
          const value = R.rational(n, 10n ** BigInt(decimals));
          const places = R.terminatingPlaces(value)!;
          expect(places).toBeLessThanOrEqual(decimals);
          expect(R.equals(R.parseDecimal(toDecimalText(value, places))!, value)).toBe(true);
          if (places > 0) expect(toDecimalText(value, places)).not.toMatch(/0$/);
        },
      ),
      { numRuns: 500 },
    );
  });
});

describe('arithmetic is exact', () => {
  test('sum, difference, product, quotient and order, multiplied crosswise in whole numbers', () => {
    fc.assert(
      fc.property(pair, pair, ([a, b], [c, d]) => {
        const [x, y] = [of([a, b]), of([c, d])];
        expect(is(R.add(x, y), a * d + c * b, b * d)).toBe(true);
        expect(is(R.subtract(x, y), a * d - c * b, b * d)).toBe(true);
        expect(is(R.multiply(x, y), a * c, b * d)).toBe(true);
        const quotient = R.divide(x, y);
        if (c === 0n) expect(quotient).toBeNull();
        else expect(is(quotient!, c < 0n ? -a * d : a * d, c < 0n ? -b * c : b * c)).toBe(true);
        expect(R.compare(x, y)).toBe(a * d < c * b ? -1 : a * d > c * b ? 1 : 0);
        expect(R.equals(x, y)).toBe(a * d === c * b);
        expect(R.sign(x)).toBe(a < 0n ? -1 : a > 0n ? 1 : 0);
        expect(is(R.negate(x), -a, b)).toBe(true);
        expect(is(R.abs(x), a < 0n ? -a : a, b)).toBe(true);
        expect(R.compare(R.min(x, y), R.max(x, y))).toBeLessThanOrEqual(0);
      }),
      { numRuns: 1000 },
    );
  });

  test('the laws of a field', () => {
    fc.assert(
      fc.property(pair, pair, pair, (p, q, r) => {
        const [a, b, c] = [of(p), of(q), of(r)];
        const same = (x: R.Rational, y: R.Rational): void =>
          expect(R.toFractionText(x)).toBe(R.toFractionText(y));
        same(R.add(R.add(a, b), c), R.add(a, R.add(b, c)));
        same(R.multiply(R.multiply(a, b), c), R.multiply(a, R.multiply(b, c)));
        same(R.multiply(a, R.add(b, c)), R.add(R.multiply(a, b), R.multiply(a, c)));
        same(R.add(a, R.negate(a)), R.ZERO);
        same(R.multiply(a, R.ONE), a);
        const inverse = R.reciprocal(a);
        if (inverse === null) same(a, R.ZERO);
        else same(R.multiply(a, inverse), R.ONE);
      }),
      { numRuns: 500 },
    );
  });

  test('floor, ceiling and remainder keep within their marks', () => {
    fc.assert(
      fc.property(pair, pair, (p, q) => {
        const [a, m] = [of(p), of(q)];
        expect(R.compare(R.floor(a), a)).toBeLessThanOrEqual(0);
        expect(R.compare(a, R.add(R.floor(a), R.ONE))).toBe(-1);
        expect(R.equals(R.ceil(a), R.negate(R.floor(R.negate(a))))).toBe(true);
        if (R.isZero(m)) return;
        const rest = R.modulo(a, m);
        expect(R.isInteger(R.divide(R.subtract(a, rest), m)!)).toBe(true);
        expect(R.sign(rest) === 0 || R.sign(rest) === R.sign(m)).toBe(true);
        expect(R.compare(R.abs(rest), R.abs(m))).toBe(-1);
      }),
      { numRuns: 500 },
    );
  });

  test('the greatest common measure goes into both, and what is left has none', () => {
    fc.assert(
      fc.property(pair, pair, (p, q) => {
        const measure = R.gcd(of(p), of(q));
        if (R.isZero(measure)) {
          expect([p[0], q[0]]).toEqual([0n, 0n]);
          return;
        }
        const [m, n] = [R.divide(of(p), measure)!, R.divide(of(q), measure)!];
        expect(R.isInteger(m) && R.isInteger(n) && R.sign(measure) > 0).toBe(true);
        expect(R.equals(R.gcd(m, n), R.ONE)).toBe(true);
      }),
      { numRuns: 300 },
    );
  });

  test('whole powers, negative ones too', () => {
    fc.assert(
      fc.property(
        fc.bigInt(-50n, 50n),
        fc.bigInt(1n, 50n),
        fc.integer({ min: -20, max: 20 }),
        (n, d, times) => {
          const result = R.powerInteger(R.rational(n, d), times);
          if (n === 0n && times < 0) {
            expect(result).toBeNull();
            return;
          }
          const [top, bottom] = times < 0 ? [d, n] : [n, d];
          const size = BigInt(Math.abs(times));
          const sign = bottom < 0n && size % 2n === 1n ? -1n : 1n;
          expect(is(result!, sign * top ** size, sign * bottom ** size)).toBe(true);
        },
      ),
      { numRuns: 500 },
    );
  });

  test('powers are bounded', () => {
    expect(R.powerInteger(R.TWO, 200)).not.toBeNull();
    expect(R.powerInteger(R.rational(16), 200)).not.toBeNull();
    expect(R.powerInteger(R.ONE, 201)).toBeNull();
    expect(R.powerInteger(R.TWO, 0.5)).toBeNull();
    expect(R.powerInteger(R.rational(10n ** 60n), 200)).toBeNull();
    expect(R.powerInteger(R.rational(1n, 10n ** 60n), 6)).toBeNull();
    expect(R.powerInteger(R.rational(1n, 10n ** 60n), -5)).not.toBeNull();
  });
});
