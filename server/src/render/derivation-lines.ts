import type { Step } from '../engine/derivation.ts';

/** A step as a claim of a block, its formula, numbers and result chained; null for what no block can claim. */
export function claimLine(_step: Step): string | null {
  return null;
}
