import type { NoteFacts } from '../language/facts.ts';
import type { Claim, Measurement } from '../language/measurement.ts';
import type { Problem } from '../language/problem.ts';
import type { WorkingComment } from '../language/working-comments.ts';
import type { Settings } from './settings.ts';
import type { Verdict } from './verdict.ts';

/** Everything that the rules look at: a note's blocks, what their records determine, and what was found of each claim. */
export interface NoteCheck {
  readonly text: string;
  readonly settings: Settings;
  /** Problems of the note as a whole, outside any block that could be read. */
  readonly problems: readonly Problem[];
  /** The workings and figures below the blocks. */
  readonly comments: readonly WorkingComment[];
  /** One for each block; claims in the prose stand together in one more behind them. */
  readonly measurements: readonly Measurement[];
  /** How many of the measurements are blocks of the note. */
  readonly fences: number;
  readonly facts: NoteFacts;
  readonly verdicts: readonly Verdict[];
  /** Claims that nothing determines, read as records. */
  readonly assumed: ReadonlySet<Claim>;
}
