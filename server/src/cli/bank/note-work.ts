import { checkNote } from '../../checks/check.ts';
import { type Counts, countsOf } from '../../checks/counts.ts';
import type { CheckedNote } from '../../checks/finding.ts';
import type { Settings } from '../../checks/settings.ts';
import type { RecordedFinding } from '../baseline/recorded-finding.ts';
import type { SeenFindings } from '../baseline/run-baseline.ts';
import type { CacheFolder } from '../cache/cache-folder.ts';
import type { Mended, Mending, NoteToMend } from '../mending/note-mending.ts';
import { type ConfigChoice, noteSettings } from '../note-settings.ts';
import type { NoteText } from '../read.ts';
import { type ReportChoice, reporterOf } from '../reporters/report-choice.ts';
import { openedNote, ownFault } from './opened-note.ts';

/** What a run does with each of its notes; plain data, so that another thread can be told. */
export interface NoteJob {
  readonly config: ConfigChoice;
  readonly reports: readonly ReportChoice[];
  /** Where what checks give is kept from run to run; null for nowhere. */
  readonly cache: CacheFolder | null;
  /** What is done with sure fixes; null for nothing. */
  readonly mending: Mending | null;
}

/** One note that is to be looked at. */
export interface NoteTask {
  readonly path: string;
  /** Whether somebody named this very note, and did not only find it in a folder. */
  readonly isMeant: boolean;
  /** What was read already, from standard input; null for a file that is still to be read. */
  readonly given: NoteText | null;
  /** What a baseline knows of it; null where there is none. */
  readonly recorded: RecordedNote | null;
}

/** A note in a baseline. */
export interface RecordedNote {
  /** Its path from the folder of the baseline. */
  readonly note: string;
  /** Findings that do not count; null where all of them are about to be recorded. */
  readonly findings: readonly RecordedFinding[] | null;
}

/** What came of one note; plain data. */
export interface NoteShare {
  /** Sentences about what could not be done. */
  readonly troubles: readonly string[];
  /** Sentences about the configuration of the note, the same for each note that it holds for: they are told once. */
  readonly configTroubles: readonly string[];
  /** Sentences that somebody should read, though all went well. */
  readonly notices: readonly string[];
  /** Sentences of that kind that many notes share: they are told once. */
  readonly commonNotices: readonly string[];
  /** Null for a note that was not checked. */
  readonly counts: Counts | null;
  /** What each of the reports says about the note, in their order. */
  readonly pieces: readonly string[];
  /** How many sure fixes were made, or could be where they are only shown. */
  readonly fixes: number;
  /** What mending has for standard output: a diff, or the note that came from standard input. */
  readonly shown: string;
  /** The file that such a diff is of, under whatever name it was found; null where there is none. */
  readonly shownFile: string | null;
  /** The findings that a baseline holds back; null where there is none. */
  readonly seen: SeenFindings | null;
}

const NOTHING: NoteShare = {
  ...{ troubles: [], configTroubles: [], notices: [], commonNotices: [] },
  ...{ counts: null, pieces: [], fixes: 0, shown: '', shownFile: null, seen: null },
};

/**
 * How a note is dealt with, from its path to its place in the reports: its settings, its text, the check. It needs
 * nothing but the job, so any thread can do it.
 */
export async function noteWork(job: NoteJob): Promise<(task: NoteTask) => Promise<NoteShare>> {
  const settingsOf = noteSettings(job.config);
  const reporters = await Promise.all(job.reports.map(reporterOf));
  const { check, notices: commonNotices } = await checkOf(job);
  const mend = await mendingOf(job);
  return async task => {
    const note = await openedNote(task, settingsOf);
    if (!note.ok) return { ...NOTHING, ...note.told };
    const { path, given, recorded } = task;
    const checkText = (text: string) => check(text, note.settings);
    const done = await doneOrTrouble(path, () =>
      mend({ path, text: note.text, isGiven: given !== null, check: checkText }),
    );
    if (typeof done === 'string') return { ...NOTHING, troubles: [done] };
    const { checked, seen } = await withoutOld(done, recorded);
    const pieces: string[] = [];
    for (const reporter of reporters) pieces.push(await reporter.note(path, done.text, checked));
    const { troubles, notices, fixes, shown, shownFile } = done;
    const counts = countsOf(checked);
    return {
      ...NOTHING,
      troubles,
      notices,
      commonNotices: commonNotices(),
      counts,
      pieces,
      fixes,
      shown,
      shownFile,
      seen,
    };
  };
}

interface Check {
  readonly check: (text: string, settings: Settings) => CheckedNote;
  readonly notices: () => readonly string[];
}

/** The check itself, or what looks first whether its answer is known. */
async function checkOf({ cache, reports }: NoteJob): Promise<Check> {
  if (cache === null) return { check: checkNote, notices: () => [] };
  const { noteCache } = await import('../cache/note-cache.ts');
  return noteCache(
    cache,
    reports.some(({ format }) => format === 'json'),
  );
}

/** Makes sure fixes on the way, or only checks. */
async function mendingOf({ mending }: NoteJob): Promise<(note: NoteToMend) => Mended | Promise<Mended>> {
  if (mending === null) {
    const nothing = { fixes: 0, shown: '', shownFile: null, troubles: [], notices: [] };
    return ({ text, check }) => ({ ...nothing, text, checked: check(text) });
  }
  const { noteMending } = await import('../mending/note-mending.ts');
  return noteMending(mending);
}

interface New {
  readonly checked: CheckedNote;
  readonly seen: SeenFindings | null;
}

async function withoutOld({ text, checked }: Mended, recorded: RecordedNote | null): Promise<New> {
  if (recorded === null) return { checked, seen: null };
  const { newFindings } = await import('../baseline/new-findings.ts');
  const { seen, ...rest } = newFindings(checked, text, recorded.findings);
  return { ...rest, seen: { note: recorded.note, findings: seen } };
}

async function doneOrTrouble(path: string, done: () => Mended | Promise<Mended>): Promise<Mended | string> {
  try {
    return await done();
  } catch (error) {
    return ownFault(path, error);
  }
}
