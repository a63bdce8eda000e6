import { checkNote } from './check.ts';
import { type Counts, countsOf } from './counts.ts';
import type { LineIndex } from './line-index.ts';
import { type BlockReport, type FindingReport, noteReport, type Stretch, stretchOf } from './note-report.ts';
import { DEFAULT_SETTINGS, type Settings } from './settings.ts';

/** How a program wants a note to be checked; what it leaves out is as usual. */
export interface CheckOptions extends Partial<Omit<Settings, 'ignore'>> {
  /** Whether waived findings are listed as well; without it they are only counted. */
  readonly waived?: boolean;
}

/** A stretch of a note, also by the offsets of its UTF-16 units, as `text.slice(start, end)` takes them. */
export interface OffsetStretch extends Stretch {
  readonly start: number;
  readonly end: number;
}

/** A block with the offsets of its fence. */
export interface CheckResultBlock extends BlockReport {
  readonly start: number;
  readonly end: number;
}

/** What a check of one note gives: the facts of the JSON document, with offsets as well. */
export interface CheckResult {
  readonly blocks: readonly CheckResultBlock[];
  /** In the order of their places. */
  readonly findings: readonly FindingReport<OffsetStretch>[];
  readonly summary: Counts;
}

/**
 * Checks a note: every stated least count, reading, correction and result against what the records make it.
 *
 * `text` is the whole Markdown note. Gives plain data, as `leastwise check --format json` tells it. Never throws on
 * anything that a note may hold.
 */
export function checkText(text: string, options: CheckOptions = {}): CheckResult {
  const { waived = false, ...settings } = options;
  const note = checkNote(text, settingsOf(settings));
  const { blocks, findings } = noteReport(text, note, waived, offsetStretchOf);
  return {
    blocks: blocks.map((block, at) => ({ ...block, ...note.blocks[at]!.span })),
    findings,
    summary: countsOf(note),
  };
}

function offsetStretchOf(index: LineIndex, span: { readonly start: number; readonly end: number }) {
  return { start: span.start, end: span.end, ...stretchOf(index, span) };
}

/** What a program leaves undefined is as usual too. */
function settingsOf(settings: Partial<Settings>): Settings {
  const said = Object.entries(settings).filter(([, value]) => value !== undefined);
  return { ...DEFAULT_SETTINGS, ...Object.fromEntries(said) };
}
