import type { RuleName } from '../language/rule-names.ts';
import type { Finding, Severity } from './finding.ts';
import type { NoteCheck } from './note-check.ts';

/** A rule as plain data: its page, its hover, `explain` and its test all come from here. */
export interface Rule {
  readonly name: RuleName;
  readonly severity: Severity;
  /** One line for lists: what the rule says. */
  readonly summary: string;
  /** A paragraph or two for the page, in a tutor's words. */
  readonly explanation: string;
  /** A marked note that shows it. */
  readonly example: string;
  /** The same note as it should be; it has no finding. */
  readonly fixedExample?: string;
  run(note: NoteCheck): readonly Finding[];
}
