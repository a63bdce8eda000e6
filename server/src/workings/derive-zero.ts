import type { Derivation } from '../engine/derivation.ts';
import type { Subject } from '../language/measurement.ts';
import type { Deriving } from './working.ts';

export function deriveZero(_deriving: Deriving, _subject: Subject): Derivation | null {
  return null;
}
