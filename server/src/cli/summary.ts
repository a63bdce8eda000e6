import type { CheckedNote } from '../checks/finding.ts';

/** How much one note holds, and how much was found in it. */
export interface Counts {
  readonly blocks: number;
  readonly claims: number;
  readonly errors: number;
  readonly warnings: number;
  readonly waived: number;
}

/** What a run has seen so far; the last line of a report. */
export interface Summary extends Counts {
  readonly notes: number;
}

export const EMPTY_SUMMARY: Summary = { notes: 0, blocks: 0, claims: 0, errors: 0, warnings: 0, waived: 0 };

/** Counts a note; what is waived counts neither as an error nor as a warning. */
export function countsOf(note: CheckedNote): Counts {
  let [claims, errors, warnings, waived] = [0, 0, 0, 0];
  for (const block of note.blocks) claims += block.claims;
  for (const finding of note.findings) {
    if (finding.waived !== null) waived++;
    else if (finding.severity === 'error') errors++;
    else warnings++;
  }
  return { blocks: note.blocks.length, claims, errors, warnings, waived };
}

/** Counts one more note in. */
export function withCounts(summary: Summary, counts: Counts): Summary {
  return {
    notes: summary.notes + 1,
    blocks: summary.blocks + counts.blocks,
    claims: summary.claims + counts.claims,
    errors: summary.errors + counts.errors,
    warnings: summary.warnings + counts.warnings,
    waived: summary.waived + counts.waived,
  };
}
