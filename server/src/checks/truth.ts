import * as Q from '../engine/quantity.ts';
import { type Answer, computed, lacking } from '../language/answer.ts';
import { evaluateIn } from '../language/evaluate-in.ts';
import type { Facts } from '../language/facts.ts';
import type { Claim } from '../language/measurement.ts';

/** The right value of what a claim speaks of: its subject, times the count of divisions where it has one. */
export function valueTimes(facts: Facts, claim: Claim): Answer {
  const value = facts.value(claim.subject);
  if (!value.ok || claim.times === null) return value;
  const times = evaluateIn(facts, claim.times);
  if (!times.ok) return times;
  const product = Q.multiply(times.quantity, value.quantity);
  return product.ok
    ? computed(product.quantity)
    : lacking({ kind: 'trouble', trouble: product.trouble, span: null });
}
