import type { CheckedNote } from '../../checks/finding.ts';
import type { Summary } from '../summary.ts';

/** A way to report: what is written first, for each note as it comes, and last. */
export interface Reporter {
  readonly opening: string;
  readonly note: (path: string, text: string, note: CheckedNote) => string | Promise<string>;
  readonly closing: (summary: Summary) => string;
}
