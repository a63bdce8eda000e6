import type { Action, ActionContext } from './action.ts';
import { findingsAt } from './places.ts';

/** The ways to mend what is found where the cursor stands. */
export function makeFixes(context: ActionContext): readonly Action[] {
  return findingsAt(context).flatMap(finding =>
    finding.fixes.map(
      ({ title, edits, sure }, index): Action => ({
        title,
        kind: 'quickfix',
        finding,
        isSure: sure && index === 0,
        edits: () => edits,
      }),
    ),
  );
}
