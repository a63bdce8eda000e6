import fc from 'fast-check';
import { all, type BigNumber, create } from 'mathjs';
import { describe, expect, test } from 'vitest';
import { toSignificantText } from '../../server/src/engine/decimal-text.ts';
import * as E from '../../server/src/engine/elementary.ts';
import * as R from '../../server/src/engine/rational.ts';

/** decimal.js inside mathjs, with its own series, carried further than ours. */
const math = create(all!, { number: 'BigNumber', precision: 90 });
const big = (a: R.Rational): BigNumber =>
  math.bignumber(String(R.numerator(a))).div(math.bignumber(String(R.denominator(a))));

/** Agrees in at least 48 of the 50 figures. */
function agrees(ours: R.Rational | null, other: BigNumber): void {
  const missed = big(ours!).minus(other).abs();
  expect(missed.lte(other.abs().times('1e-48')), `${toSignificantText(ours!, 50)} and ${other}`).toBe(true);
}

const fraction = (largest: bigint): fc.Arbitrary<R.Rational> =>
  fc
    .tuple(fc.bigInt({ min: -largest, max: largest }), fc.bigInt({ min: 1n, max: 10n ** 12n }))
    .map(([n, d]) => R.rational(n, d));
const sine = fc
  .tuple(fc.bigInt({ min: -(10n ** 15n), max: 10n ** 15n }), fc.bigInt({ min: 0n, max: 10n ** 15n }))
  .map(([n, more]) => R.rational(n, (n < 0n ? -n : n) + more + 1n));

describe('fifty figures', () => {
  test('pi', () => {
    // Abramowitz & Stegun, table 1.1: from memory.
    expect(toSignificantText(E.PI_50, 50)).toBe('3.1415926535897932384626433832795028841971693993751');
    agrees(E.PI_50, math.bignumber(-1).acos());
    agrees(E.arccosineOf(R.rational(-1)), big(E.PI_50));
    agrees(R.multiply(R.rational(4), E.arctangentOf(R.ONE)), big(E.PI_50));
  });

  test('sine, cosine and tangent of radians agree with another library', () => {
    fc.assert(
      fc.property(fraction(10n ** 14n), a => {
        if (R.isZero(a)) return;
        agrees(E.sineOf(a), big(a).sin());
        agrees(E.cosineOf(a), big(a).cos());
        agrees(E.tangentOf(a), big(a).tan());
      }),
      { numRuns: 60 },
    );
  });

  test('sine, cosine and tangent of degrees agree with another library', () => {
    const pi = math.bignumber(-1).acos();
    fc.assert(
      fc.property(fraction(10n ** 15n), a => {
        const radians = big(a).times(pi).div(180);
        const [ours, other] = [E.sineOfDegrees(a), radians.sin()];
        if (!R.isZero(ours)) agrees(ours, other);
        if (!R.isZero(E.cosineOfDegrees(a))) agrees(E.cosineOfDegrees(a), radians.cos());
        const tangent = E.tangentOfDegrees(a);
        if (tangent !== null && !R.isZero(tangent)) agrees(tangent, radians.tan());
      }),
      { numRuns: 60 },
    );
  });

  test('the inverse functions agree with another library', () => {
    fc.assert(
      fc.property(sine, fraction(10n ** 15n), (s, t) => {
        if (!R.isZero(s)) agrees(E.arcsineOf(s), big(s).asin());
        agrees(E.arccosineOf(s), big(s).acos());
        if (!R.isZero(t)) agrees(E.arctangentOf(t), big(t).atan());
      }),
      { numRuns: 60 },
    );
  });

  test.each(['1e-40', '-1e-40', '1e-60', '1e20', '-1e20', '22/7', '355/113', '1e40', '123456789/1000'])(
    'nothing is lost for %s, tiny, huge or close to a multiple of pi',
    text => {
      const more = create(all!, { number: 'BigNumber', precision: 160 });
      const a = R.rational(text);
      const other = more.bignumber(String(R.numerator(a))).div(more.bignumber(String(R.denominator(a))));
      agrees(E.sineOf(a), math.bignumber(other.sin().toString()));
      agrees(E.tangentOf(a), math.bignumber(other.tan().toString()));
      agrees(E.arctangentOf(a), math.bignumber(other.atan().toString()));
    },
  );

  test('exact where it is exact, by Niven’s theorem nowhere else', () => {
    // The sines of whole degrees that are fractions: 0, 1/2 and 1 (I. Niven, Irrational Numbers, 3.9: from memory).
    const short = (a: R.Rational | null): string | null =>
      a !== null && R.denominator(a) <= 2n ? R.toFractionText(a) : null;
    for (let degrees = -720; degrees <= 720; degrees += 1) {
      const sines: Record<number, string> = { 0: '0', 30: '1/2', 90: '1', 150: '1/2', 180: '0' };
      const turned = ((degrees % 360) + 360) % 360;
      const expected = turned <= 180 ? sines[turned] : sines[turned - 180]?.replace(/^(?!0)/, '-');
      expect(short(E.sineOfDegrees(R.rational(degrees)))).toBe(expected ?? null);
      const tangents: Record<number, string> = { 0: '0', 45: '1', 135: '-1' };
      const tangent = E.tangentOfDegrees(R.rational(degrees));
      if (turned % 180 === 90) expect(tangent).toBeNull();
      else expect(short(tangent)).toBe(tangents[turned % 180] ?? null);
    }
  });

  test('outside their domain the inverse functions have no value', () => {
    expect(E.arcsineOf(R.rational('1.000001'))).toBeNull();
    expect(E.arccosineOf(R.rational('-1.000001'))).toBeNull();
    expect(R.isZero(E.arctangentOf(R.ZERO))).toBe(true);
  });

  test('the largest and smallest numbers still come back', () => {
    const huge = R.rational(2n ** 1023n);
    const square = R.add(
      R.multiply(E.sineOf(huge), E.sineOf(huge)),
      R.multiply(E.cosineOf(huge), E.cosineOf(huge)),
    );
    expect(R.compare(R.abs(R.subtract(square, R.ONE)), R.rational(1n, 10n ** 48n))).toBe(-1);
    const tiny = R.reciprocal(huge)!;
    expect(toSignificantText(R.divide(E.sineOf(tiny), tiny)!, 48)).toBe(toSignificantText(R.ONE, 48));
    expect(toSignificantText(R.divide(E.sineOfDegrees(tiny), tiny)!, 20)).toBe(
      toSignificantText(R.divide(E.PI_50, R.rational(180))!, 20),
    );
  });
});
