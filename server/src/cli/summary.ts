import type { Counts } from '../checks/counts.ts';

/** What a run has seen so far; the last line of a report. */
export interface Summary extends Counts {
  readonly notes: number;
  /** How many findings a baseline holds back; null where there is none. */
  readonly old: number | null;
  /** What came of sure fixes; null where they are not asked for. */
  readonly mended: MendedSum | null;
}

/** How many sure fixes were made in how many notes, or could be where they are only shown. */
export interface MendedSum {
  readonly fixes: number;
  readonly notes: number;
  readonly isWritten: boolean;
}

export const EMPTY_SUMMARY: Summary = {
  ...{ notes: 0, blocks: 0, claims: 0, errors: 0, warnings: 0, waived: 0 },
  ...{ old: null, mended: null },
};

/** Counts one more note in. */
export function withCounts(summary: Summary, counts: Counts): Summary {
  return {
    ...summary,
    notes: summary.notes + 1,
    blocks: summary.blocks + counts.blocks,
    claims: summary.claims + counts.claims,
    errors: summary.errors + counts.errors,
    warnings: summary.warnings + counts.warnings,
    waived: summary.waived + counts.waived,
  };
}

/** Counts what was held back and mended in one more note. */
export function withDeeds({ old, mended, ...rest }: Summary, held: number, fixes: number): Summary {
  return {
    ...rest,
    old: old === null ? null : old + held,
    mended:
      mended === null || fixes === 0
        ? mended
        : { ...mended, fixes: mended.fixes + fixes, notes: mended.notes + 1 },
  };
}
