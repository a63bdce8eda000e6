import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import * as I from '../../server/src/engine/integer.ts';

const whole = fc.bigInt({ min: -(10n ** 40n), max: 10n ** 40n });
const positive = fc.bigInt({ min: 1n, max: 10n ** 40n });

describe('whole numbers', () => {
  test('a root is the largest whole number whose power does not pass', () => {
    fc.assert(
      fc.property(fc.bigInt({ min: 0n, max: 10n ** 90n }), fc.bigInt(1n, 40n), (a, n) => {
        const root = I.integerRoot(a, n);
        expect(root ** n <= a && a < (root + 1n) ** n).toBe(true);
      }),
      { numRuns: 500 },
    );
  });

  test('perfect powers and their neighbours', () => {
    for (let n = 2n; n <= 9n; n += 1n) {
      for (let root = 2n; root <= 30n; root += 1n) {
        expect(I.integerRoot(root ** n, n)).toBe(root);
        expect(I.integerRoot(root ** n - 1n, n)).toBe(root - 1n);
      }
    }
  });

  test('binary digits are those of the binary numeral', () => {
    fc.assert(
      fc.property(fc.bigInt({ min: 1n, max: 10n ** 60n }), a => {
        expect(I.bitLength(a)).toBe(a.toString(2).length);
      }),
      { numRuns: 500 },
    );
    expect(I.bitLength(0n)).toBe(0);
  });

  test('rounded quotients miss by half the divisor at most, ties as asked', () => {
    fc.assert(
      fc.property(whole, positive, (top, bottom) => {
        const missed = I.roundedQuotient(top, bottom, 'half-even') * bottom - top;
        expect(2n * (missed < 0n ? -missed : missed) <= bottom).toBe(true);
        const cut = I.roundedQuotient(top, bottom, 'down');
        expect(cut).toBe(top / bottom);
        const below = I.floorDivision(top, bottom);
        expect(below * bottom <= top && top < (below + 1n) * bottom).toBe(true);
      }),
      { numRuns: 500 },
    );
    expect([5n, 7n, -5n, -7n].map(n => I.roundedQuotient(n, 2n, 'half-even'))).toEqual([2n, 4n, -2n, -4n]);
    expect([5n, 7n, -5n, -7n].map(n => I.roundedQuotient(n, 2n, 'half-away'))).toEqual([3n, 4n, -3n, -4n]);
  });

  test('a decimal in lowest terms is the same number without a common divisor', () => {
    fc.assert(
      fc.property(
        fc.bigInt({ min: 1n, max: 10n ** 50n }),
        fc.integer({ min: 0, max: 60 }),
        (units, places) => {
          const [top, bottom] = I.decimalTerms(units, places);
          expect(top * 10n ** BigInt(places)).toBe(units * bottom);
          expect(top % 2n === 0n && bottom % 2n === 0n).toBe(false);
          expect(top % 5n === 0n && bottom % 5n === 0n).toBe(false);
        },
      ),
      { numRuns: 500 },
    );
  });

  test('powers of ten, the rare ones too', () => {
    expect(I.tenTo(0)).toBe(1n);
    expect(I.tenTo(450).toString()).toBe(`1${'0'.repeat(450)}`);
    expect(I.tenTo(37).toString()).toBe(`1${'0'.repeat(37)}`);
  });
});
