import { isPlain } from '../engine/dimension.ts';
import { namesIn } from '../engine/evaluation.ts';
import type { Expression } from '../engine/expression.ts';
import { quantity } from '../engine/quantity.ts';
import { ONE } from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import { type Unit, unitText } from '../engine/unit.ts';
import { evaluateStated } from './evaluate-in.ts';
import type { Facts } from './facts.ts';
import type { Claim, Stated } from './measurement.ts';

/**
 * The first link that has a value with a unit by itself: what is worked out goes before what it is said to come to.
 *
 * Numbers alone, as in `752.35 - 752.05 = 0.30 mm`, are measured by that link's unit.
 */
export function firstMeasured(facts: Facts, claim: Claim): Stated | null {
  let numbers: Stated | null = null;
  for (const { content } of claim.links) {
    if (content.kind !== 'stated' || namesIn(content.stated.expression).size > 0) continue;
    const { stated } = content;
    const value = evaluateStated(facts, stated);
    if (!value.ok) continue;
    const isMeasured = !isPlain(value.quantity.dimension) || S.isZero(value.quantity.scalar);
    if (!isMeasured) numbers ??= stated;
    else return numbers === null ? stated : (measured(numbers, value.quantity.unit) ?? stated);
  }
  return null;
}

function measured(numbers: Stated, unit: Unit | null): Stated | null {
  if (unit === null) return null;
  const one: Expression = {
    kind: 'literal',
    quantity: quantity(ONE, unit),
    place: null,
    text: unitText(unit),
  };
  return {
    ...numbers,
    expression: { kind: 'multiply', left: numbers.expression, right: one },
    hasUnit: true,
  };
}
