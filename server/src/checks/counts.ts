import type { CheckedNote } from './finding.ts';

/** How much one note holds, and how much was found in it. */
export interface Counts {
  readonly blocks: number;
  readonly claims: number;
  readonly errors: number;
  readonly warnings: number;
  readonly waived: number;
}

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
