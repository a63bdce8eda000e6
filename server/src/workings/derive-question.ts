import type { Derivation } from '../engine/derivation.ts';
import type { Deriving } from './working.ts';

export function deriveQuestion(_deriving: Deriving): Derivation | null {
  return null;
}
