import fc from 'fast-check';
import { all, create } from 'mathjs';
import { describe, expect, test } from 'vitest';
import { toDecimalText, toSignificantText } from '../../server/src/engine/decimal-text.ts';
import * as R from '../../server/src/engine/rational.ts';
import { roundsTo } from '../../server/src/engine/rounds-to.ts';

/** decimal.js inside mathjs: another library's decimals, with its own rounding. */
const math = create(all!, { number: 'BigNumber', precision: 64 });
const decimalJsHalfEven = 6;

const whole = fc.bigInt({ min: -(10n ** 24n), max: 10n ** 24n });
const positive = fc.bigInt({ min: 1n, max: 10n ** 20n });
const pair = fc.tuple(whole, positive);
const of = ([n, d]: readonly [bigint, bigint]): R.Rational => R.rational(n, d);
describe('rounding to a place', () => {
  test.each([
    // ASTM E29, the rounding method: from memory.
    ['45.7500', '0.1', '45.8'],
    ['45.45001', '0.1', '45.5'],
    // IS 2:1960, rules for rounding off numerical values: from memory.
    ['4.36', '1', '4'],
    ['15.205', '0.1', '15.2'],
    ['9.625', '1', '10'],
    ['2.651', '0.1', '2.7'],
    ['0.3552', '0.01', '0.36'],
    ['12.545001', '0.01', '12.55'],
    // Half to even as textbooks drill it: common practice, no source.
    ['16.351', '0.1', '16.4'],
    ['56.748', '0.1', '56.7'],
    ['21.350', '0.1', '21.4'],
    ['3.458', '0.1', '3.5'],
    ['0.345', '0.1', '0.3'],
  ])('%s to %s is %s', (exact, place, rounded) => {
    const result = R.roundTo(R.rational(exact), R.rational(place), 'half-even');
    expect(R.toFractionText(result)).toBe(R.toFractionText(R.rational(rounded)));
    expect(roundsTo(R.rational(exact), R.rational(rounded), R.rational(place))).toBe(true);
  });

  test('0.345 rounded twice gives 0.4, which is no rounding of 0.345 to one decimal', () => {
    const once = R.roundTo(R.rational('0.345'), R.rational('0.01'), 'half-away');
    const twice = R.roundTo(once, R.rational('0.1'), 'half-away');
    expect(toDecimalText(twice, 1)).toBe('0.4');
    expect(roundsTo(R.rational('0.345'), R.rational('0.4'), R.rational('0.1'))).toBe(false);
  });

  test.each([
    ['2.5', '2', true],
    ['2.5', '3', true],
    ['3.5', '4', true],
    ['3.5', '3', false],
    ['-2.5', '-2', true],
    ['-2.5', '-3', true],
    ['-3.5', '-3', false],
    ['2.51', '2', false],
    ['2.49', '3', false],
    ['0.5', '0', true],
    ['0.5', '1', true],
    ['2.4', '2.4', false],
  ])('a tie may go to the even one or away from zero: %s as %s is %s', (exact, stated, right) => {
    expect(roundsTo(R.rational(exact), R.rational(stated), R.ONE)).toBe(right);
  });

  test('agrees with another library on random decimals', () => {
    const scaled = fc.bigInt({ min: -(10n ** 12n), max: 10n ** 12n });
    fc.assert(
      fc.property(
        scaled,
        fc.integer({ min: 0, max: 8 }),
        fc.integer({ min: 0, max: 9 }),
        (n, decimals, places) => {
          const text = toDecimalText(R.rational(n, 10n ** BigInt(decimals)), places);
          const other = math.bignumber(`${n}e-${decimals}`).toFixed(places, decimalJsHalfEven);
          expect(text).toBe(other.replace(/^-(0(?:\.0*)?)$/, '$1'));
        },
      ),
      { numRuns: 1000 },
    );
  });

  test('lands on a multiple of the place, no further than half of it, and cutting goes towards zero', () => {
    fc.assert(
      fc.property(pair, fc.tuple(positive, positive), (x, p) => {
        const [exact, place] = [of(x), of(p)];
        for (const mode of ['half-even', 'half-away', 'down'] as const) {
          const rounded = R.roundTo(exact, place, mode);
          expect(R.isInteger(R.divide(rounded, place)!)).toBe(true);
          const missed = R.abs(R.subtract(exact, rounded));
          const most = mode === 'down' ? place : R.multiply(place, R.HALF);
          expect(R.compare(missed, most)).toBeLessThanOrEqual(mode === 'down' ? -1 : 0);
          if (mode === 'down') expect(R.compare(R.abs(rounded), R.abs(exact))).toBeLessThanOrEqual(0);
          else expect(roundsTo(exact, rounded, place)).toBe(true);
        }
        const next = R.add(R.roundTo(exact, place, 'half-even'), place);
        const tie = R.equals(R.subtract(next, exact), R.multiply(place, R.HALF));
        if (!tie) expect(roundsTo(exact, next, place)).toBe(false);
      }),
      { numRuns: 500 },
    );
  });
});

describe('writing numbers', () => {
  test.each([
    ['1/50', 0, '0'],
    ['1/50', 3, '0.020'],
    ['-1/200', 2, '0.00'],
    ['-3/200', 2, '-0.02'],
    ['2484/1000', 3, '2.484'],
    ['1195635', -3, '1196000'],
    ['499', -3, '0'],
    ['-1/3', 5, '-0.33333'],
  ])('%s to %i places is %s', (value, places, text) => {
    expect(toDecimalText(R.rational(value), places)).toBe(text);
  });

  test.each([
    ['2/3', 3, '0.667'],
    ['9.99', 2, '10'],
    ['12345', 2, '12000'],
    ['2.5', 4, '2.500'],
    ['1e-7', 3, '0.000000100'],
    ['9.99e-8', 3, '9.99e-8'],
    ['-1.25e-12', 2, '-1.2e-12'],
    ['1.5e21', 3, '1.50e21'],
    ['0', 5, '0'],
  ])('%s to %i figures is %s', (value, figures, text) => {
    expect(toSignificantText(R.rational(value), figures)).toBe(text);
  });

  test('significant figures agree with another library', () => {
    fc.assert(
      fc.property(whole, positive, fc.integer({ min: 1, max: 30 }), (n, d, figures) => {
        if (n === 0n) return;
        const text = toSignificantText(R.rational(n, d), figures);
        const exact = math.bignumber(String(n)).div(math.bignumber(String(d)));
        expect(math.bignumber(text).eq(exact.toSignificantDigits(figures, decimalJsHalfEven))).toBe(true);
      }),
      { numRuns: 500 },
    );
  });

  test.each([
    ['1/50', 2],
    ['1/3', null],
    ['12', 0],
    ['7/40', 3],
    ['1/1024', 10],
    ['0', 0],
  ])('%s needs %s decimal places', (value, places) => {
    expect(R.terminatingPlaces(R.rational(value))).toBe(places);
  });

  test('a number keeps its first figures, and its sign', () => {
    fc.assert(
      fc.property(pair, fc.integer({ min: 1, max: 50 }), (p, figures) => {
        const value = of(p);
        const rounded = R.rationalRoundFigures(value, figures);
        const allowed = R.multiply(R.abs(value), R.rational(1n, 2n * 10n ** BigInt(figures - 1)));
        expect(R.compare(R.abs(R.subtract(value, rounded)), allowed)).toBeLessThanOrEqual(0);
        expect(R.sign(rounded)).toBe(R.sign(value));
        // In lowest terms, or equality by parts would fail.
        const again = R.rational(R.numerator(rounded), R.denominator(rounded));
        expect(R.equals(again, rounded)).toBe(true);
        expect(R.denominator(again)).toBe(R.denominator(rounded));
      }),
      { numRuns: 1000 },
    );
  });

  test('the first digit has its power of ten', () => {
    fc.assert(
      fc.property(fc.bigInt(1n, 10n ** 40n), positive, (n, d) => {
        const power = R.decimalExponent(R.rational(n, d));
        const lower = power >= 0 ? d * 10n ** BigInt(power) <= n : d <= n * 10n ** BigInt(-power);
        const upper = power + 1 >= 0 ? n < d * 10n ** BigInt(power + 1) : n * 10n ** BigInt(-power - 1) < d;
        expect(lower && upper).toBe(true);
      }),
      { numRuns: 500 },
    );
    for (let power = -60; power <= 60; power += 1) {
      expect(R.decimalExponent(R.rational(`1e${power}`))).toBe(power);
    }
  });

  test('to count with, only what JavaScript counts exactly', () => {
    expect(R.toInteger(R.rational(-7))).toBe(-7);
    expect(R.toInteger(R.HALF)).toBeNull();
    expect(R.toInteger(R.rational(2n ** 53n))).toBeNull();
    expect(R.toNumber(R.rational(1, 8))).toBe(0.125);
    expect(R.toNumber(R.rational(10n ** 400n, 10n ** 399n))).toBe(10);
  });

  test('the program itself may only write whole numbers', () => {
    expect(() => R.rational(0.5)).toThrow(RangeError);
    expect(() => R.rational('half')).toThrow(RangeError);
    expect(R.toFractionText(R.rational('-14/4'))).toBe('-7/2');
  });
});
