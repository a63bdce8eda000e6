import type { Quantity } from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import { type Halves, roundsTo } from '../engine/rounds-to.ts';
import * as S from '../engine/scalar.ts';
import type { Answer } from '../language/answer.ts';
import { evaluateIn } from '../language/evaluate-in.ts';
import type { Facts } from '../language/facts.ts';
import type { Stated, Subject } from '../language/measurement.ts';
import { comparable } from './agreement.ts';
import { placeOf } from './link-value.ts';

/** What stands behind the ± of something stated, and the worst-case error that should. */
export interface StatedError {
  readonly subject: Subject;
  readonly written: Answer;
  readonly truth: Answer;
}

/** The error that something stated about a subject has, as a share where it is written in per cent; null without one. */
export function statedError(facts: Facts, of: Subject, stated: Stated): StatedError | null {
  if (stated.error === null) return null;
  const written = evaluateIn(facts, stated.error);
  const inPercent = written.ok && written.quantity.unit?.symbol === '%';
  const statistic = inPercent ? 'percentage error' : 'absolute error';
  const subject: Subject = { kind: 'statistic', statistic, of, from: null };
  return { subject, written, truth: facts.value(subject) };
}

/** Whether an error is the right one, also raised to the next step of its last place; null for another kind. */
export function errorAgrees(
  facts: Facts,
  truth: Quantity,
  written: Quantity,
  error: NonNullable<Stated['error']>,
): boolean | null {
  const pair = comparable(truth, written);
  if (pair === null) return null;
  const right = S.realValue(pair.truth.scalar);
  const value = S.realValue(pair.stated.scalar);
  if (right === null || value === null) return false;
  const place = placeOf(error);
  if (R.equals(right, value)) return true;
  // An error that is not nought is never rounded away.
  const mayRound = place !== null && !R.isZero(value);
  return mayRound && roundsUpOrTo(right, value, place, facts.measurement.halves);
}

/** An error may also be raised to the next step of its last place. Source: GUM (JCGM 100:2008) 7.2.6. */
function roundsUpOrTo(exact: R.Rational, stated: R.Rational, place: R.Rational, halves: Halves): boolean {
  if (roundsTo(exact, stated, place, halves)) return true;
  return R.compare(exact, stated) < 0 && R.compare(R.subtract(stated, exact), place) < 0;
}
