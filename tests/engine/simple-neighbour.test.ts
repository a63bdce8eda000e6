import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import * as R from '../../server/src/engine/rational.ts';
import { simpleNeighbour } from '../../server/src/engine/simple-neighbour.ts';

const tolerance = R.rational(1n, 10n ** 40n);

describe('the short fraction beside a long one', () => {
  test('a short fraction is found again after a disturbance in the last figures', () => {
    const disturbance = fc.bigInt(-9n, 9n);
    fc.assert(
      fc.property(fc.bigInt(-99999n, 99999n), fc.bigInt(1n, 99999n), disturbance, (n, d, last) => {
        if (n === 0n) return;
        const exact = R.rational(n, d);
        const disturbed = R.multiply(exact, R.rational(10n ** 45n + last, 10n ** 45n));
        expect(R.toFractionText(simpleNeighbour(disturbed, tolerance)!)).toBe(R.toFractionText(exact));
      }),
      { numRuns: 500 },
    );
  });

  test('the classical approximations of pi are not pi', () => {
    // 355/113 and its like come from the continued fraction of pi (A. Khinchin, Continued Fractions: from memory).
    const pi = R.rational('3.14159265358979323846264338327950288419716939937511');
    expect(simpleNeighbour(pi, tolerance)).toBeNull();
    expect(R.toFractionText(simpleNeighbour(pi, R.rational(1n, 10n ** 6n))!)).toBe('355/113');
    expect(R.toFractionText(simpleNeighbour(pi, R.rational(1n, 10n ** 3n))!)).toBe('22/7');
  });

  test('nought is itself', () => {
    expect(R.isZero(simpleNeighbour(R.ZERO, tolerance)!)).toBe(true);
  });
});
