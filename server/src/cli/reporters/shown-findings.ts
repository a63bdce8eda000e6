import type { CheckedNote, Finding } from '../../checks/finding.ts';

/** Which findings a report lists; all of them count, whether they are listed or not. */
export interface Shown {
  /** Whether waived findings are listed as well. */
  readonly waived: boolean;
  /** Whether only errors are listed. */
  readonly quiet: boolean;
}

/** The findings of a note that a report lists, in the order of their places. */
export function shownFindings(note: CheckedNote, { waived, quiet }: Shown): readonly Finding[] {
  return note.findings.filter(
    finding => (waived || finding.waived === null) && (!quiet || finding.severity === 'error'),
  );
}
