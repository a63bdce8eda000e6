import type { Derivation, Step } from '../engine/derivation.ts';
import type { Facts } from '../language/facts.ts';
import { ownerOf } from '../language/facts-error.ts';
import type { Subject } from '../language/measurement.ts';
import type { Deriving } from './working.ts';

/**
 * The derivation of a subject as the block writes it that the subject belongs to.
 *
 * A block that only asks for another one's quantity cannot claim those lines as they stand, for their names mean
 * something else there: then none of them is a claim.
 */
export function localDerivation(
  { facts }: Deriving,
  subject: Subject,
  derive: (facts: Facts, subject: Subject) => Derivation | null,
): Derivation | null {
  const home = ownerOf(facts, subject);
  if (home === null) return null;
  const derivation = derive(home.facts, home.subject);
  if (derivation === null || home.facts === facts) return derivation;
  const { name } = home.facts.measurement;
  return {
    title: name === null ? derivation.title : `${derivation.title} of ${name}`,
    steps: derivation.steps.map(unclaimed),
  };
}

function unclaimed(step: Step): Step {
  return step.kind === 'line' ? { ...step, isClaim: false } : step;
}
