import type { CheckedNote } from '../checks/finding.ts';

/** What a run has seen so far; the last line of a report. */
export interface Summary {
  readonly notes: number;
  readonly blocks: number;
  readonly claims: number;
  readonly errors: number;
  readonly warnings: number;
  readonly waived: number;
}

export const EMPTY_SUMMARY: Summary = { notes: 0, blocks: 0, claims: 0, errors: 0, warnings: 0, waived: 0 };

/** Counts one more note in; what is waived counts neither as an error nor as a warning. */
export function withNote(summary: Summary, note: CheckedNote): Summary {
  let { claims, errors, warnings, waived } = summary;
  for (const block of note.blocks) claims += block.claims;
  for (const finding of note.findings) {
    if (finding.waived !== null) waived++;
    else if (finding.severity === 'error') errors++;
    else warnings++;
  }
  return {
    notes: summary.notes + 1,
    blocks: summary.blocks + note.blocks.length,
    claims,
    errors,
    warnings,
    waived,
  };
}
