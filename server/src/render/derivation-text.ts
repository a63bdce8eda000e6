import type { Derivation } from '../engine/derivation.ts';

/** Derivations as plain text, without a final line break. */
export function derivationText(_derivations: readonly Derivation[]): string {
  return '';
}
