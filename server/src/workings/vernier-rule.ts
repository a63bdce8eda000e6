import type * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import type { Facts } from '../language/facts.ts';
import { ratio, wholeOffset } from '../language/facts-divisions.ts';
import { lineCount } from '../language/vernier-lines.ts';
import { divisionOf, termValue } from './setting.ts';

/** A vernier's divisions beside those of the scale that it slides along. */
export interface VernierDivisions {
  readonly base: 'main' | 'linear' | 'circular';
  readonly coarse: Q.Quantity;
  readonly fine: Q.Quantity;
  readonly leastCount: Q.Quantity;
  readonly lines: S.Scalar | null;
  readonly runsBackward: boolean;
}

/** What the rule of a vernier is made of; null without a vernier, or while a division or the least count is open. */
export function vernierDivisions(facts: Facts): VernierDivisions | null {
  const { hasVernier, vernierBase, vernierLines } = facts.scales();
  if (!hasVernier) return null;
  const coarse = divisionOf(facts, `${vernierBase} scale division`);
  const fine = divisionOf(facts, 'vernier scale division');
  const leastCount = termValue(facts, 'least count');
  if (coarse === null || fine === null || leastCount === null) return null;
  const { runsBackward } = facts.measurement;
  return { base: vernierBase, coarse, fine, leastCount, lines: vernierLines, runsBackward };
}

/**
 * What line n of the vernier stands for: `up` n least counts, `down` N - n of them, `odd` neither.
 *
 * Up where each line gains one least count on the marks: a shorter division that runs forward, a longer one that runs
 * backward. Where only the least count is given, n of them are meant.
 */
export function vernierRule(facts: Facts): 'up' | 'down' | 'odd' {
  const found = vernierDivisions(facts);
  if (found === null) return 'up';
  const { coarse, leastCount, lines, runsBackward } = found;
  const part = ratio(facts, 'vernier', found.base);
  const real = part === null ? null : S.realValue(part);
  if (real === null) {
    const offset = part === null || lines === null ? null : wholeOffset(part, lines);
    return offset === null ? 'odd' : (offset.offset === -1) !== runsBackward ? 'up' : 'down';
  }
  const step = S.divide(leastCount.scalar, coarse.scalar);
  const each = step === null ? null : S.realValue(step);
  if (each === null) return 'odd';
  const gained = runsBackward ? real : R.negate(real);
  if (isWhole(R.subtract(gained, each))) return 'up';
  const count = lineCount(facts);
  const roundsUp = count !== null && R.equals(R.multiply(each, R.rational(count)), R.ONE);
  return roundsUp && isWhole(R.add(gained, each)) ? 'down' : 'odd';
}

function isWhole(number: R.Rational): boolean {
  return R.isInteger(number);
}

/** The smallest b for which b vernier divisions come as near to a whole number m of main ones as the least count says. */
export function nearestMultiple(
  facts: Facts,
  { coarse, fine, leastCount, base, lines }: VernierDivisions,
): { readonly b: R.Rational; readonly m: R.Rational; readonly isAbove: boolean } | null {
  const part = ratio(facts, 'vernier', base);
  const real = part === null ? null : S.realValue(part);
  const step = S.divide(leastCount.scalar, coarse.scalar);
  const each = step === null ? null : S.realValue(step);
  if (real === null || each === null) {
    const offset = part === null || lines === null ? null : wholeOffset(part, lines);
    if (offset === null || S.isZero(fine.scalar)) return null;
    return { b: R.ONE, m: R.rational(offset.whole), isAbove: offset.offset === 1 };
  }
  for (let b = 1; b <= MOST_LINES; b++) {
    const along = R.multiply(real, R.rational(b));
    const [under, over] = [R.subtract(along, each), R.add(along, each)];
    if (isWhole(over)) return { b: R.rational(b), m: over, isAbove: false };
    if (isWhole(under)) return { b: R.rational(b), m: under, isAbove: true };
  }
  return null;
}

/** Verniers have fewer lines. */
const MOST_LINES = 2000;
