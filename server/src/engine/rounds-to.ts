import { abs, compare, type Rational, subtract } from './rational.ts';

/**
 * Whether `stated` is `exact` rounded to a multiple of `place`.
 *
 * Exact. A tie may go away from zero or to the even one, since both are taught, unless `halves` names one of the two.
 */
export function roundsTo(
  exact: Rational,
  stated: Rational,
  place: Rational,
  halves: Halves = 'either',
): boolean {
  const top = stated.n * place.d;
  const bottom = stated.d * place.n;
  if (top % bottom !== 0n) return false;
  const missed = subtract(exact, stated);
  const excess = 2n * missed.n * place.d - place.n * missed.d;
  if (excess !== 0n) return excess < 0n;
  const isAway = compare(abs(stated), abs(exact)) > 0;
  const isEven = ((top / bottom) & 1n) === 0n;
  return halves === 'either' ? isAway || isEven : halves === 'to-even' ? isEven : isAway;
}

/** Which way a half may go where a value is rounded: away from zero or to the even digit, or only one of the two. */
export type Halves = 'either' | 'away-from-zero' | 'to-even';
