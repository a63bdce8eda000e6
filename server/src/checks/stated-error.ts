import type { Quantity } from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import { roundsTo } from '../engine/rounds-to.ts';
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

/** Whether the error behind a stated value is the right one, also raised to the next step of its last place; null for another kind. */
export function errorAgrees(
  facts: Facts,
  truth: Quantity,
  written: Quantity,
  { error, expression }: Stated,
): boolean | null {
  const pair = comparable(truth, written);
  if (pair === null) return null;
  const right = S.realValue(pair.truth.scalar);
  const value = S.realValue(pair.stated.scalar);
  if (right === null || value === null) return false;
  const place = error === null ? null : placeOf(error);
  if (R.equals(right, value)) return true;
  // An error that is not nought is never rounded away.
  if (place === null || R.isZero(value)) return false;
  return (
    roundsTo(right, value, place, facts.measurement.halves) ||
    isRaised(right, value, place, placeOf(expression))
  );
}

/**
 * An error may also be raised to the next step of its last place. Source: GUM (JCGM 100:2008) 7.2.6.
 *
 * Where nothing else is left of it than that step, the value must end in this place too, and the error in the next.
 */
function isRaised(
  exact: R.Rational,
  stated: R.Rational,
  place: R.Rational,
  placeOfValue: R.Rational | null,
): boolean {
  const added = R.subtract(stated, exact);
  if (R.sign(added) < 0 || R.compare(added, place) >= 0) return false;
  if (R.compare(exact, place) >= 0) return true;
  const endsAlike = placeOfValue !== null && R.equals(placeOfValue, place);
  return endsAlike && R.compare(R.multiply(exact, R.TEN), place) >= 0;
}
