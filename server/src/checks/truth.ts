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

/** What a claim of so many makes one, 20 VSD = 19 mm; null where that cannot be said. */
export function valueOfOne(facts: Facts, { times }: Claim, value: Q.Quantity): Q.Quantity | null {
  if (times === null) return value;
  const count = evaluateIn(facts, times);
  const one = count.ok ? Q.divide(value, count.quantity) : null;
  return one?.ok ? one.quantity : null;
}
