import { sep } from 'node:path';
import type { CheckedNote } from '../checks/finding.ts';
import type { Settings } from '../checks/settings.ts';
import { coloursFor } from './colours.ts';
import { escapeControls } from './escape-controls.ts';
import { findNotes } from './files.ts';
import { keepMemoryFlat } from './keep-memory-flat.ts';
import { type ConfigChoice, type NoteSettings, noteSettings } from './note-settings.ts';
import { standardOutput } from './output.ts';
import { type NoteText, readNote, readStandardInput } from './read.ts';
import type { Reporter } from './reporters/reporter.ts';
import { EMPTY_SUMMARY, withNote } from './summary.ts';
import { isTerminal, outputWidth } from './terminal.ts';
import { wantsColour } from './wants-colour.ts';

export interface CheckOptions {
  readonly format: 'pretty' | 'json';
  /** Whether waived findings are listed as well. */
  readonly waived: boolean;
  /** What a note from standard input is called; null where nobody says. */
  readonly stdinFilename: string | null;
  readonly config: ConfigChoice;
}

/** 0: no errors; 1: errors found; 2: the tool could not do its work. */
export type ExitStatus = 0 | 1 | 2;

/** How a note is checked. */
export type CheckNote = (text: string, settings: Settings) => CheckedNote;

const STDIN = '-';
/** From how many notes on a run is long enough for its memory to matter more than its start. */
const A_BANK = 50;

/**
 * Checks notes one after the other and reports as it goes; no more than one note is held at a time.
 * What cannot be read is told on standard error, and the rest is checked all the same.
 */
export async function checkNotes(
  paths: readonly string[],
  options: CheckOptions,
  checkNote: CheckNote,
): Promise<ExitStatus> {
  const reporter = await reporterFor(options);
  const output = standardOutput();
  let summary = EMPTY_SUMMARY;
  let able = true;
  const unable = (trouble: string) => {
    able = false;
    complain(trouble);
  };

  await output.write(reporter.opening);
  for await (const source of sourcesOf(paths, options)) {
    if (!source.ok) {
      unable(source.trouble);
      continue;
    }
    const checked = checkedOrTrouble(source, checkNote);
    if (typeof checked === 'string') {
      unable(checked);
      continue;
    }
    summary = withNote(summary, checked);
    if (summary.notes === A_BANK) await keepMemoryFlat();
    await output.write(await reporter.note(source.path, source.text, checked));
  }
  await output.write(reporter.closing(summary));
  const failure = await output.end();
  if (failure !== null) unable(failure);
  return !able ? 2 : summary.errors > 0 ? 1 : 0;
}

/** Says on standard error, in one sentence, what could not be done. */
export function complain(trouble: string): void {
  process.stderr.write(`leastwise: ${escapeControls(trouble)}\n`);
}

type Source =
  | { readonly ok: true; readonly path: string; readonly text: string; readonly settings: Settings }
  | { readonly ok: false; readonly trouble: string };

async function* sourcesOf(paths: readonly string[], options: CheckOptions): AsyncGenerator<Source> {
  if (paths.length === 0 && (await isTerminal(0))) {
    yield {
      ok: false,
      trouble: 'nothing to check: name a note, a folder or a pattern, or hand a note over on standard input',
    };
    return;
  }
  const settingsOf = noteSettings(options.config);
  const files = paths.filter(path => path !== STDIN);
  if (files.length < paths.length || paths.length === 0) {
    const path = options.stdinFilename ?? STDIN;
    const text = await readStandardInput(path === STDIN ? 'the note on standard input' : path);
    yield* named(path, await settingsOf(path), true, () => text);
  }
  for await (const found of findNotes(files)) {
    if (found.kind === 'note')
      yield* named(found.path, await settingsOf(found.path), files.includes(found.path), () =>
        readNote(found.path),
      );
    else yield { ok: false, trouble: found.message };
  }
}

/** A note as it is to be checked; none where its configuration is broken or leaves it out. */
function* named(path: string, how: NoteSettings, isMeant: boolean, read: () => NoteText): Generator<Source> {
  if (!how.ok) {
    for (const trouble of how.troubles) yield { ok: false, trouble };
    return;
  }
  if (how.isIgnored) {
    // Whoever names a note must not take it for a right one.
    if (isMeant) complain(`${path} is left out: \`ignore\` in ${how.config} says so`);
    return;
  }
  const note = read();
  const shown = sep === '\\' ? path.replaceAll('\\', '/') : path;
  yield note.ok ? { ok: true, path: shown, text: note.text, settings: how.settings } : note;
}

/** A fault of ours in one note must not cost the others their check, nor pass for a right note. */
function checkedOrTrouble(
  source: Extract<Source, { readonly ok: true }>,
  checkNote: CheckNote,
): CheckedNote | string {
  try {
    return checkNote(source.text, source.settings);
  } catch (error) {
    return `${source.path} could not be checked, which is a fault of leastwise and not of the note (${String(error)})`;
  }
}

/** Loads only the reporter that is asked for: a small note must not wait for the other one. */
async function reporterFor(options: CheckOptions): Promise<Reporter> {
  if (options.format === 'json') {
    const { jsonReporter } = await import('./reporters/json.ts');
    return jsonReporter(options);
  }
  const { prettyReporter } = await import('./reporters/pretty.ts');
  return prettyReporter({
    colours: await coloursFor(wantsColour(process.env, await isTerminal(1))),
    width: await outputWidth(),
    waived: options.waived,
  });
}
