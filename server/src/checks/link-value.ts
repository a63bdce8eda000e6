import { isPlain } from '../engine/dimension.ts';
import { namesIn } from '../engine/evaluation.ts';
import type { Expression } from '../engine/expression.ts';
import * as Q from '../engine/quantity.ts';
import * as S from '../engine/scalar.ts';
import type { Answer } from '../language/answer.ts';
import { evaluateStated } from '../language/evaluate-in.ts';
import type { Facts } from '../language/facts.ts';
import type { Claim, Link, Stated } from '../language/measurement.ts';
import { comparable, type StatedValue } from './agreement.ts';
import type { Judging } from './judge.ts';

/** What a link says, as a value; null when it says nothing that can be compared, which is then a verdict. */
export function linkValue(
  judging: Judging,
  block: number,
  claim: Claim,
  link: Link,
  stated: Stated,
  truth: Q.Quantity,
  isLast: boolean,
): StatedValue | null {
  const facts = judging.facts.block(block);
  const at = { block, claim, link, span: link.span };
  const answer: Answer = evaluateStated(facts, stated, truth.dimension);
  if (!answer.ok) {
    judging.verdicts.push({ ...at, kind: 'lack', lack: answer.lack });
    return null;
  }
  const place = placeOf(stated.expression);
  const value = { quantity: answer.quantity, place };
  if (comparable(truth, answer.quantity) !== null) return value;
  const isBare =
    !stated.hasUnit && isPlain(answer.quantity.dimension) && namesIn(stated.expression).size === 0;
  if (isBare && isLast) {
    judging.verdicts.push({ ...at, kind: 'bare', truth, text: stated.text });
    return null;
  }
  if (isBare) return measuredByNext(facts, claim, link, value, truth);
  judging.verdicts.push({ ...at, kind: 'other-kind', stated: answer.quantity, truth });
  return null;
}

/** `LC = 0.1 - 0.09 = 0.01 cm`: links of mere numbers are measured by the unit of the next one that has it. */
function measuredByNext(
  facts: Facts,
  claim: Claim,
  from: Link,
  value: StatedValue,
  truth: Q.Quantity,
): StatedValue | null {
  for (const link of claim.links.slice(claim.links.indexOf(from) + 1)) {
    if (link.content.kind !== 'stated' || !link.content.stated.hasUnit) continue;
    const measured = evaluateStated(facts, link.content.stated);
    const unit = measured.ok ? measured.quantity.unit : null;
    if (unit === null) continue;
    const quantity = Q.quantity(value.quantity.scalar, unit);
    if (comparable(truth, quantity) === null) return null;
    const place = value.place === null ? null : S.realValue(Q.quantity(value.place, unit).scalar);
    return { quantity, place };
  }
  return null;
}

/** One in the last place of a value; null for a formula. */
export function placeOf(expression: Expression): StatedValue['place'] {
  if (expression.kind === 'negate') return placeOf(expression.of);
  return expression.kind === 'literal' ? expression.place : null;
}
