import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import * as R from '../../server/src/engine/rational.ts';
import * as S from '../../server/src/engine/scalar.ts';

const number = (text: string): S.Scalar => S.real(R.rational(text));
const pair = fc.tuple(
  fc.bigInt({ min: -(10n ** 12n), max: 10n ** 12n }),
  fc.bigInt({ min: 1n, max: 10n ** 6n }),
);
const of = ([n, d]: readonly [bigint, bigint]): S.Scalar => S.real(R.rational(n, d));
const w = S.letter('w', 'positive');
const k = S.letter('k', 'count');
const two = number('2');

/** A scalar of any kind: exact, with a root in it, or in letters. */
const scalar = fc.tuple(pair, fc.constantFrom('exact', 'root', 'pi', 'letters')).map(([p, kind]) => {
  const value = of(p);
  switch (kind) {
    case 'exact':
      return value;
    case 'root':
      return S.multiply(value, S.sqrt(two)!);
    case 'pi':
      return S.add(value, S.PI);
    default:
      return S.add(S.multiply(value, w), k);
  }
});

describe('numbers and formulas together', () => {
  test('the laws of a field hold, exactly for exact numbers and letters, else within the figures', () => {
    fc.assert(
      fc.property(scalar, scalar, scalar, (a, b, c) => {
        const same = (x: S.Scalar, y: S.Scalar): void => {
          expect(S.equals(x, y), `${S.scalarText(x)} and ${S.scalarText(y)}`).toBe(true);
        };
        same(S.add(a, b), S.add(b, a));
        same(S.multiply(S.multiply(a, b), c), S.multiply(a, S.multiply(b, c)));
        same(S.negate(S.subtract(a, b)), S.subtract(b, a));
        expect(S.isZero(S.subtract(a, a))).toBe(true);
        const quotient = S.divide(a, b);
        if (S.isZero(b)) expect(quotient).toBeNull();
        else same(S.multiply(quotient!, b), a);
        const exact = S.isExact(a) && S.isExact(b);
        if (exact) expect(S.isExact(S.add(a, b)) && S.isExact(S.multiply(a, b))).toBe(true);
      }),
      { numRuns: 400 },
    );
  });

  test('exact numbers take no part of a float', () => {
    fc.assert(
      fc.property(pair, pair, (p, q) => {
        const [a, b] = [R.rational(...p), R.rational(...q)];
        expect(R.equals(S.realValue(S.add(of(p), of(q)))!, R.add(a, b))).toBe(true);
        expect(R.equals(S.realValue(S.multiply(of(p), of(q)))!, R.multiply(a, b))).toBe(true);
        expect(S.compare(of(p), of(q))).toBe(R.compare(a, b));
      }),
      { numRuns: 300 },
    );
  });

  test('what cancels leaves nothing: (√2)^2 - 2, 3π - π - 2π', () => {
    const root = S.sqrt(two)!;
    expect(S.isZero(S.subtract(S.power(root, R.TWO)!, two))).toBe(true);
    const threePi = S.multiply(number('3'), S.PI);
    expect(S.isZero(S.subtract(S.subtract(threePi, S.PI), S.multiply(two, S.PI)))).toBe(true);
    expect(S.isZero(S.subtract(S.add(S.PI, number('1e-30')), S.PI))).toBe(false);
  });

  test('inexact numbers are compared by their figures', () => {
    const root = S.sqrt(two)!;
    expect(S.compare(S.multiply(root, root), two)).toBe(0);
    expect(S.compare(root, number('1.41421356237309504880168872420969807856967187537'))).toBe(0);
    expect(S.compare(root, number('1.4142135623730950488'))).toBe(1);
    expect(S.isExact(root)).toBe(false);
    expect(S.isExact(S.multiply(root, S.NOUGHT))).toBe(true);
  });

  test.each([
    ['8', '1/3', '2', true],
    ['4', '-1/2', '1/2', true],
    ['-2', '3', '-8', true],
    ['2/3', '-2', '9/4', true],
    ['0', '0', '1', true],
    ['2', '1/2', '1.41421356237310', false],
    ['2.25', '1.5', '27/8', true],
  ])('%s to the power %s is %s', (base, exponent, expected, exact) => {
    const result = S.power(number(base), R.rational(exponent))!;
    expect(S.scalarText(result)).toBe(expected);
    expect(S.isExact(result)).toBe(exact);
  });

  test('a power of an inexact number is its repeated product', () => {
    fc.assert(
      fc.property(pair, fc.integer({ min: -9, max: 9 }), (p, times) => {
        const base = S.add(of(p), S.PI);
        let product = S.UNITY;
        for (let i = 0; i < Math.abs(times); i += 1) product = S.multiply(product, base);
        const expected = times < 0 ? S.divide(S.UNITY, product)! : product;
        expect(S.equals(S.power(base, R.rational(times))!, expected)).toBe(true);
      }),
      { numRuns: 200 },
    );
  });

  test('where there is no value there is null', () => {
    expect(S.power(S.NOUGHT, R.rational(-1))).toBeNull();
    expect(S.power(number('-4'), R.HALF)).toBeNull();
    expect(S.power(w, R.HALF)).toBeNull();
    expect(S.divide(w, S.subtract(w, w))).toBeNull();
    expect(S.divide(S.PI, S.subtract(S.PI, S.PI))).toBeNull();
    expect(S.abs(S.subtract(w, k))).toBeNull();
    expect(S.scalarText(S.abs(S.negate(w))!)).toBe('w');
  });

  test('pi among letters stays pi', () => {
    const area = S.divide(S.multiply(S.PI, S.power(w, R.TWO)!), number('4'))!;
    expect(S.scalarText(area)).toBe('pi w^2/4');
    expect(S.isExact(area)).toBe(true);
    expect(S.scalarText(S.multiply(S.divide(S.multiply(two, S.PI), number('3'))!, w))).toBe('2pi w/3');
    expect(S.scalarText(S.divide(w, S.PI)!)).toBe('w/pi');
    const back = S.divide(area, S.multiply(w, w))!;
    expect(S.equals(back, S.divide(S.PI, number('4'))!)).toBe(true);
    expect(back.kind).toBe('real');
    expect(S.sign(area)).toBe(1);
  });

  test('letters that cancel leave a number', () => {
    const ratio = S.divide(S.multiply(number('3'), w), S.multiply(two, w))!;
    expect(ratio).toEqual(number('3/2'));
    expect(S.isZero(S.subtract(w, w))).toBe(true);
    expect(S.equals(w, k)).toBe(false);
    expect(S.compare(w, S.multiply(two, w))).toBe(-1);
    expect(S.compare(w, k)).toBeUndefined();
    expect(S.realValue(w)).toBeNull();
  });

  test('the remainder lies from nought up to the divisor, of roots and of exact numbers', () => {
    fc.assert(
      fc.property(pair, pair, fc.boolean(), (p, q, root) => {
        if (q[0] === 0n) return;
        const factor = root ? S.sqrt(two)! : S.UNITY;
        const [a, b] = [S.multiply(of(p), factor), S.abs(S.multiply(of(q), factor))!];
        const rest = S.modulo(a, b)!;
        expect(S.sign(rest)).not.toBe(-1);
        expect(S.compare(rest, b)).toBe(-1);
        const lots = S.divide(S.subtract(a, rest), b)!;
        expect(S.equals(S.floor(lots)!, lots) || S.isZero(lots)).toBe(true);
      }),
      { numRuns: 300 },
    );
    expect(S.modulo(w, S.NOUGHT)).toBeNull();
  });

  test('a vernier in letters: its line k stands k divisions back, whole main divisions taken off', () => {
    const twice = S.multiply(two, k);
    const division = S.divide(S.multiply(S.subtract(twice, S.UNITY), w), twice)!;
    expect(S.scalarText(S.modulo(S.negate(division), w)!)).toBe('w/(2k)');
    expect(S.scalarText(S.modulo(division, w)!)).toBe('(2k - 1)w/(2k)');
    expect(S.scalarText(S.modulo(S.multiply(two, w), w)!)).toBe('0');
    expect(S.modulo(S.multiply(k, w), S.letter('x', 'positive'))).toBeNull();
  });

  test('an inexact number a hair below a whole one is that one', () => {
    const almost = S.multiply(S.divide(S.UNITY, S.sqrt(two)!)!, S.sqrt(number('8'))!);
    expect(S.scalarText(S.floor(almost)!)).toBe('2');
    expect(S.isZero(S.modulo(almost, two)!)).toBe(true);
    expect(S.scalarText(S.floor(S.negate(S.PI))!)).toBe('-4');
  });

  test('growth ends, and what came of it stays recognisable', () => {
    let square = number('1.5');
    for (let i = 0; i < 60; i += 1) square = S.multiply(square, square);
    expect(S.isTooLarge(square)).toBe(true);
    let root = S.sqrt(two)!;
    for (let i = 0; i < 60; i += 1) root = S.multiply(root, root);
    expect(S.isTooLarge(root)).toBe(true);
    let sums = S.UNITY;
    for (let i = 0; i < 30; i += 1) sums = S.multiply(sums, S.add(w, S.letter(`x${i}`, 'positive')));
    expect(S.isTooLarge(sums)).toBe(true);
    for (const after of [
      S.add(sums, w),
      S.divide(w, sums)!,
      S.negate(sums),
      S.power(sums, R.TWO)!,
      S.abs(sums)!,
    ]) {
      expect(S.isTooLarge(after)).toBe(true);
    }
    expect(S.isTooLarge(S.power(number('1e60'), R.rational(200))!)).toBe(true);
    expect(S.isTooLarge(S.power(S.PI, R.rational(10n ** 12n))!)).toBe(true);
    expect(S.equals(sums, sums)).toBe(false);
    expect(S.sign(sums)).toBeUndefined();
    expect(S.isTooLarge(w)).toBe(false);
  });

  test.each([
    [number('1/50'), '1/50'],
    [S.divide(S.PI, number('1e12'))!, '3.14159265358979e-12'],
    [S.divide(S.PI, S.PI)!, '1.00000000000000'],
    [S.divide(w, S.multiply(two, k))!, 'w/(2k)'],
  ])('as programs get it: %#', (value, text) => {
    expect(S.scalarText(value)).toBe(text);
  });
});
