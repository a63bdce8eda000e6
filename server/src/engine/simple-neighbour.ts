import { floorDivision } from './integer.ts';
import * as R from './rational.ts';

const SHORT_FRACTION = 10n ** 10n;

/**
 * The shortest fraction within a part `tolerance` of a, when it is short indeed (ten digits at most); else null.
 *
 * By the continued fraction, whose convergents are the best approximations. Finds 3/4 again in 0.75000…01.
 */
export function simpleNeighbour(a: R.Rational, tolerance: R.Rational): R.Rational | null {
  const [wholeTop, wholeBottom] = [R.numerator(a), R.denominator(a)];
  const size = wholeTop < 0n ? -wholeTop : wholeTop;
  let [restTop, restBottom] = [wholeTop, wholeBottom];
  let [lastTop, top, lastBottom, bottom] = [0n, 1n, 1n, 0n];
  for (;;) {
    const whole = floorDivision(restTop, restBottom);
    [lastTop, top] = [top, whole * top + lastTop];
    [lastBottom, bottom] = [bottom, whole * bottom + lastBottom];
    if (bottom > SHORT_FRACTION || top > SHORT_FRACTION || -top > SHORT_FRACTION) return null;
    const missed = top * wholeBottom - wholeTop * bottom;
    const missedPart = (missed < 0n ? -missed : missed) * R.denominator(tolerance);
    if (missedPart <= size * bottom * R.numerator(tolerance)) return R.rational(top, bottom);
    [restTop, restBottom] = [restBottom, restTop - whole * restBottom];
  }
}
