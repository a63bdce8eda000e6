import type { Step, StepLink } from '../engine/derivation.ts';
import type { Expression } from '../engine/expression.ts';
import type * as Q from '../engine/quantity.ts';

type Both = Extract<Expression, { readonly left: Expression }>['kind'];

/** A name as the board writes it: `MSR`, `S`, `rho`, `observed reading`. */
export function named(text: string): Expression {
  return { kind: 'name', key: text, text };
}

/** A value as it is written down; `text` stands for `quantity`, exactly or rounded. */
export function written(text: string, quantity: Q.Quantity): Expression {
  return { kind: 'literal', quantity, place: null, text };
}

/** Two parts with a sign between them. */
export function joined(kind: Both, left: Expression, right: Expression): Expression {
  return { kind, left, right };
}

export function equal(value: Expression, error: Expression | null = null): StepLink {
  return { relation: '=', value, error };
}

export function about(value: Expression, error: Expression | null = null): StepLink {
  return { relation: '≈', value, error };
}

/** A line that a block can claim. */
export function claimStep(left: Expression, links: readonly StepLink[], reason: string | null = null): Step {
  return { kind: 'line', reason, left, links, isClaim: true };
}

/** A line that only leads to the next one. */
export function sideStep(left: Expression, links: readonly StepLink[], reason: string | null = null): Step {
  return { kind: 'line', reason, left, links, isClaim: false };
}
