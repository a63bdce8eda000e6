import type { Facts } from '../language/facts.ts';
import type { Claim, Link, Stated } from '../language/measurement.ts';
import type { Judging } from './judge.ts';
import { placeOf } from './link-value.ts';
import { findSlip } from './slip-search.ts';
import { errorAgrees, statedError } from './stated-error.ts';

/** Compares what stands behind ± with the worst-case error of the value: `rho = 7.80 g/cm^3 ± 0.11 g/cm^3`. */
export function judgeError(
  judging: Judging,
  facts: Facts,
  block: number,
  claim: Claim,
  link: Link,
  stated: Stated,
): void {
  const error = statedError(facts, claim.subject, stated);
  if (error === null || stated.error === null) return;
  const { written, truth } = error;
  if (!written.ok || !truth.ok) {
    if (!truth.ok)
      judging.verdicts.push({ block, claim, link, span: link.span, kind: 'lack', lack: truth.lack });
    return;
  }
  const agrees = errorAgrees(facts, truth.quantity, written.quantity, stated);
  if (agrees === null) {
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
  if (agrees) return;
  const value = { quantity: written.quantity, place: placeOf(stated.error) };
  judging.verdicts.push({
    block,
    claim,
    link,
    span: link.span,
    kind: 'wrong',
    stated: value,
    truth: truth.quantity,
    part: 'error',
    slip: findSlip(facts, { ...claim, subject: error.subject }, stated, value, truth.quantity, null),
  });
}
