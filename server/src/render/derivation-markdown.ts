import type { Derivation } from '../engine/derivation.ts';

/** Derivations as a worked solution in Markdown with LaTeX math, without a final line break. */
export function derivationMarkdown(_derivations: readonly Derivation[]): string {
  return '';
}
