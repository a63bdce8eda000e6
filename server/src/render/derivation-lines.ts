import type { Step } from '../engine/derivation.ts';
import { expressionText } from './expression-text.ts';

/**
 * A step as a claim of a block, its formula, numbers and result chained:
 * `observed reading = MSR + n × LC = 2.45 cm + 17 × 0.002 cm = 2.484 cm`.
 *
 * Null for what no block can claim.
 */
export function claimLine(step: Step): string | null {
  if (step.kind !== 'line' || !step.isClaim || step.links.length === 0) return null;
  const links = step.links.map(({ relation, value, error }) => {
    const behind = error === null ? '' : ` ± ${expressionText(error)}`;
    return ` ${relation} ${expressionText(value)}${behind}`;
  });
  return expressionText(step.left) + links.join('');
}
