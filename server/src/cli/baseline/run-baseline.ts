import { realpathSync, statSync } from 'node:fs';
import { basename, dirname, join, relative, resolve, sep } from 'node:path';
import type { Found } from '../bank/note-tasks.ts';
import { placeWhole } from '../place-whole.ts';
import { BASELINE, readNote } from '../read.ts';
import { writeNote } from '../write-note.ts';
import { errorCode, writingTrouble } from '../writing-trouble.ts';
import { baselineText, type RecordedNotes, readBaselineText } from './baseline-text.ts';
import type { RecordedFinding } from './recorded-finding.ts';

/** Which file holds the old findings, and what is done with it when the run is over. */
export interface BaselineChoice {
  readonly path: string;
  readonly use: 'hold' | 'record' | 'prune';
}

/** The findings of a note that a baseline knows, or is to know. */
export interface SeenFindings {
  /** From the folder of the baseline. */
  readonly note: string;
  readonly findings: readonly RecordedFinding[];
}

/** The old findings of a run: handed out note by note, and gathered again. */
export interface RunBaseline {
  /** Gives each of the notes what is recorded of it. */
  readonly handOut: (founds: AsyncIterable<Found>) => AsyncIterable<Found>;
  readonly gather: (seen: SeenFindings) => void;
  /** Writes what was gathered, where that is asked for, and says so. */
  readonly write: () => Written;
}

export type Written =
  | { readonly ok: true; readonly notice: string | null }
  | { readonly ok: false; readonly trouble: string };

export type OpenedBaseline =
  | { readonly ok: true; readonly baseline: RunBaseline }
  | { readonly ok: false; readonly trouble: string };

/**
 * Opens a baseline for a run. Notes that the run does not look at keep what is recorded of them, unless they are gone from
 * the disk.
 */
export function runBaseline({ path, use }: BaselineChoice): OpenedBaseline {
  const read = readWhere(path);
  if (!read.ok) return read;
  if (read.text === null && use !== 'record') {
    const trouble = `there is no baseline ${path}: --record-baseline writes one`;
    return { ok: false, trouble };
  }
  const opened = read.text === null ? null : readBaselineText(read.text, path);
  if (opened?.ok === false) return opened;
  const notes = opened?.notes ?? new Map<string, readonly RecordedFinding[]>();
  const recordedBefore = countIn(notes);
  const looked = new Set<string>();
  const folder = dirname(wholePath(path));

  async function* handOut(founds: AsyncIterable<Found>): AsyncGenerator<Found> {
    for await (const found of founds) {
      if (found.kind !== 'task') yield found;
      else if (found.task.path === STDIN) {
        if (use === 'record') yield { kind: 'trouble', message: NAMELESS };
        yield found;
      } else {
        const note = relative(folder, wholePath(found.task.path)).split(sep).join('/');
        const findings = use === 'record' ? null : (notes.get(note) ?? []);
        yield { ...found, task: { ...found.task, recorded: { note, findings } } };
      }
    }
  }

  const noticeOf = (now: number, then: number): string =>
    use === 'record'
      ? `${path} holds ${now === 1 ? '1 finding' : `${now} findings`} now, which will not count`
      : `${path} holds ${now === 1 ? '1 finding' : `${now} findings`} now: ${then - now} no longer occur${then - now === 1 ? 's' : ''}`;

  return {
    ok: true,
    baseline: {
      handOut,
      gather: ({ note, findings }) => {
        // Only what is recorded needs to be remembered, so a bank may be of any size.
        if (use === 'hold' || (findings.length === 0 && !notes.has(note))) return;
        looked.add(note);
        if (findings.length === 0) notes.delete(note);
        else notes.set(note, findings);
      },
      write: () => {
        if (use === 'hold') return { ok: true, notice: null };
        for (const note of notes.keys())
          if (!looked.has(note) && isGone(join(folder, note))) notes.delete(note);
        const trouble = written(path, read.text, baselineText(notes));
        return trouble === null
          ? { ok: true, notice: noticeOf(countIn(notes), recordedBefore) }
          : { ok: false, trouble };
      },
    },
  };
}

/** What the note on standard input is called when it has no name. */
const STDIN = '-';
const NAMELESS =
  'the note on standard input has no name that a baseline could keep: give it one with --stdin-filename';

/** Where the folder in which the command runs is gone, nothing can be read or written by this path anyhow. */
function wholePath(path: string): string {
  try {
    return resolve(path);
  } catch {
    return path;
  }
}

function countIn(notes: RecordedNotes): number {
  let count = 0;
  for (const findings of notes.values()) for (const finding of findings) count += finding.count;
  return count;
}

type Read =
  | { readonly ok: true; readonly text: string | null }
  | { readonly ok: false; readonly trouble: string };

function readWhere(path: string): Read {
  return isNothing(path) ? { ok: true, text: null } : readNote(path, path, BASELINE);
}

function isNothing(path: string): boolean {
  try {
    return statSync(path, { throwIfNoEntry: false }) === undefined;
  } catch {
    // The reading says what is wrong with it.
    return false;
  }
}

function written(path: string, before: string | null, text: string): string | null {
  if (before === text) return null;
  if (before !== null) return writeNote(path, before, text);
  try {
    placeWhole(join(realpathSync(dirname(path)), basename(path)), text, { mode: 0o666 });
    return null;
  } catch (error) {
    return writingTrouble(error, path);
  }
}

/** A note that only cannot be reached now is not gone. */
function isGone(path: string): boolean {
  try {
    return statSync(path, { throwIfNoEntry: false }) === undefined;
  } catch (error) {
    return errorCode(error) === 'ENOTDIR';
  }
}
