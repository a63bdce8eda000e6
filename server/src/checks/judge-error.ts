import * as R from '../engine/rational.ts';
import { type Halves, roundsTo } from '../engine/rounds-to.ts';
import * as S from '../engine/scalar.ts';
import { evaluateIn } from '../language/evaluate-in.ts';
import type { Facts } from '../language/facts.ts';
import type { Claim, Link, Stated, Subject } from '../language/measurement.ts';
import { comparable } from './agreement.ts';
import type { Judging } from './judge.ts';
import { placeOf } from './link-value.ts';

/** Compares what stands behind ± with the worst-case error of the value: `rho = 7.80 g/cm^3 ± 0.11 g/cm^3`. */
export function judgeError(
  judging: Judging,
  facts: Facts,
  block: number,
  claim: Claim,
  link: Link,
  stated: Stated,
): void {
  if (stated.error === null) return;
  const written = evaluateIn(facts, stated.error);
  const inPercent = written.ok && written.quantity.unit?.symbol === '%';
  const subject: Subject = {
    kind: 'statistic',
    statistic: inPercent ? 'percentage error' : 'absolute error',
    of: claim.subject,
    from: null,
  };
  const truth = facts.value(subject);
  if (!written.ok || !truth.ok) {
    if (!truth.ok)
      judging.verdicts.push({ block, claim, link, span: link.span, kind: 'lack', lack: truth.lack });
    return;
  }
  const pair = comparable(truth.quantity, written.quantity);
  if (pair === null) {
    judging.verdicts.push({
      block,
      claim,
      link,
      span: stated.spans.get(stated.error) ?? link.span,
      kind: 'other-kind',
      stated: written.quantity,
      truth: truth.quantity,
    });
    return;
  }
  const right = pair && S.realValue(pair.truth.scalar);
  const value = pair && S.realValue(pair.stated.scalar);
  const place = placeOf(stated.error);
  const agrees =
    right !== null &&
    value !== null &&
    (R.equals(right, value) ||
      (place !== null && !R.isZero(value) && roundsUpOrTo(right, value, place, facts.measurement.halves)));
  if (agrees) return;
  judging.verdicts.push({
    block,
    claim,
    link,
    span: link.span,
    kind: 'wrong',
    stated: { quantity: written.quantity, place },
    truth: truth.quantity,
    part: 'error',
    slip: null,
  });
}

/** An error may also be raised to the next step of its last place. Source: GUM (JCGM 100:2008) 7.2.6. */
function roundsUpOrTo(exact: R.Rational, stated: R.Rational, place: R.Rational, halves: Halves): boolean {
  if (roundsTo(exact, stated, place, halves)) return true;
  return R.compare(exact, stated) < 0 && R.compare(R.subtract(stated, exact), place) < 0;
}
