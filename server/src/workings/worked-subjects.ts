import type { Facts } from '../language/facts.ts';
import type { Subject } from '../language/measurement.ts';

/** What a worked solution of a block shows, in the order of teaching. */
export function workedSubjects(_facts: Facts): readonly Subject[] {
  return [];
}
