import type { CheckedNote } from '../../checks/finding.ts';
import type { Summary } from '../summary.ts';

/**
 * A way to report. What is said of a note is made by `note` wherever the note is checked, perhaps in another thread; the
 * pieces come back in the order of the notes and are put together here.
 */
export interface Reporter {
  /** What is said of one note; empty where there is nothing to say. Looks at its arguments only. */
  readonly note: (path: string, text: string, note: CheckedNote) => string | Promise<string>;
  readonly opening: string;
  /** What can be written now that the piece of one more note has come. */
  readonly add: (piece: string) => string;
  readonly closing: (summary: Summary) => string;
  /** Left out of a report in the order of the notes, which does not tell what could not be done. */
  readonly keeps?: KeptBack;
}

/** What a report keeps until all notes are in it; it comes between what was added and the closing, in this order. */
export interface KeptBack {
  /** Of a note's piece: what comes after whatever was added of any note, for the worst goes first. */
  readonly later: (piece: string) => string;
  /** A sentence about what could not be done, after all of that and so many others of its kind. */
  readonly trouble: (sentence: string, before: number) => string;
  readonly beforeLater: () => string;
  readonly beforeTroubles: () => string;
}
