import { checkNote } from '../../checks/check.ts';
import type { CheckedNote } from '../../checks/finding.ts';
import type { Settings } from '../../checks/settings.ts';
import { type ConfigChoice, noteSettings } from '../note-settings.ts';
import { type NoteText, readNote } from '../read.ts';
import { type ReportChoice, reporterOf } from '../reporters/report-choice.ts';
import { type Counts, countsOf } from '../summary.ts';

/** What a run does with each of its notes; plain data, so that another thread can be told. */
export interface NoteJob {
  readonly config: ConfigChoice;
  readonly reports: readonly ReportChoice[];
}

/** One note that is to be looked at. */
export interface NoteTask {
  readonly path: string;
  /** Whether somebody named this very note, and did not only find it in a folder. */
  readonly isMeant: boolean;
  /** What was read already, from standard input; null for a file that is still to be read. */
  readonly given: NoteText | null;
}

/** What came of one note; plain data. */
export interface NoteShare {
  /** Sentences about what could not be done. */
  readonly troubles: readonly string[];
  /** Sentences about the configuration of the note, the same for each note that it holds for: they are told once. */
  readonly configTroubles: readonly string[];
  /** Sentences that somebody should read, though all went well. */
  readonly notices: readonly string[];
  /** Null for a note that was not checked. */
  readonly counts: Counts | null;
  /** What each of the reports says about the note, in their order. */
  readonly pieces: readonly string[];
}

const NOTHING: NoteShare = { troubles: [], configTroubles: [], notices: [], counts: null, pieces: [] };

/**
 * How a note is dealt with, from its path to its place in the reports: its settings, its text, the check. It needs
 * nothing but the job, so any thread can do it.
 */
export async function noteWork(job: NoteJob): Promise<(task: NoteTask) => Promise<NoteShare>> {
  const settingsOf = noteSettings(job.config);
  const reporters = await Promise.all(job.reports.map(reporterOf));
  return async ({ path, isMeant, given }) => {
    const how = await settingsOf(path);
    if (!how.ok) return { ...NOTHING, configTroubles: how.troubles };
    if (how.isIgnored) {
      // Whoever names a note must not take it for a right one.
      const notices = isMeant ? [`${path} is left out: \`ignore\` in ${how.config} says so`] : [];
      return { ...NOTHING, notices };
    }
    const note = given ?? readNote(path);
    if (!note.ok) return { ...NOTHING, troubles: [note.trouble] };
    const checked = checkedOrTrouble(path, note.text, how.settings);
    if (typeof checked === 'string') return { ...NOTHING, troubles: [checked] };
    const pieces: string[] = [];
    for (const reporter of reporters) pieces.push(await reporter.note(path, note.text, checked));
    return { ...NOTHING, counts: countsOf(checked), pieces };
  };
}

/** A fault of ours in one note must not cost the others their check, nor pass for a right note. */
function checkedOrTrouble(path: string, text: string, settings: Settings): CheckedNote | string {
  try {
    return checkNote(text, settings);
  } catch (error) {
    return `${path} could not be checked, which is a fault of leastwise and not of the note (${String(error)})`;
  }
}
