import type { Derivation } from '../engine/derivation.ts';
import type { Subject } from '../language/measurement.ts';
import { localDerivation } from './derive-at-home.ts';
import { scatterDerivation } from './derive-scatter.ts';
import { meanStep } from './mean-step.ts';
import { titleOf } from './subject-name.ts';
import type { Deriving } from './working.ts';

/** A mean, or how the values scatter about it; null where the block determines neither. */
export function deriveMean(deriving: Deriving, subject: Subject): Derivation | null {
  return localDerivation(deriving, subject, (facts, local) => {
    const value = facts.value(local);
    if (!value.ok || value.source !== 'computed') return null;
    if (isScatter(local)) return scatterDerivation(facts, local);
    const step = meanStep(facts, local);
    return step && { title: titleOf(facts, local), steps: [step] };
  });
}

function isScatter(subject: Subject): boolean {
  const term = subject.kind === 'term' ? subject.term : subject.kind === 'statistic' ? subject.statistic : '';
  return term === 'mean absolute error' || term === 'standard deviation';
}
