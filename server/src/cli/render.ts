import { realpathSync } from 'node:fs';
import { basename, dirname, join, relative, resolve, sep } from 'node:path';
import { withEdits } from '../actions/settled-edits.ts';
import { checkedNote } from '../checks/check.ts';
import { examineNote } from '../checks/examine.ts';
import type { NoteCheck } from '../checks/note-check.ts';
import { mayTell } from '../checks/settings.ts';
import { safeName } from '../figures/figure-names.ts';
import { complain, type ExitStatus } from './complain.ts';
import { noteStem } from './draw.ts';
import { escapeControls } from './escape-controls.ts';
import { movedLinks } from './moved-links.ts';
import { type ConfigChoice, noteSettings } from './note-settings.ts';
import { standardOutput } from './output.ts';
import { putFile } from './put-file.ts';
import { type RenderedNote, renderedNote } from './rendered-note.ts';
import { readTarget } from './work-target.ts';

export interface RenderOptions {
  readonly out: string;
  /** Leaves out all that gives the answers away. */
  readonly question: boolean;
  /** What a note from standard input is called; null where nobody says. */
  readonly stdinFilename: string | null;
  readonly config: ConfigChoice;
}

/** Where the figures stand, below the folder of the notes. */
const FIGURES = 'figures';

/**
 * Writes a note as plain Markdown that any site or pandoc prints, with its figures as files.
 *
 * 0: written; 1: something is wrong with the note, or it must not be told; 2: the tool could not do its work.
 */
export async function render(typed: string, options: RenderOptions): Promise<ExitStatus> {
  const { out, question, stdinFilename } = options;
  const target = await readTarget(typed, stdinFilename);
  if (!target.ok) return unable(target.trouble);
  if (target.block !== null) return unable(`a note is rendered whole: leave #${target.block} out`);
  const file = basename(target.path ?? stdinFilename ?? 'note.md');
  if (target.path !== null && isSameFile(target.path, join(out, file)))
    return unable(`${out} is the note's own folder, and the note itself would be lost: choose another one`);
  const how = await noteSettings(options.config)(target.path ?? stdinFilename ?? '-');
  if (!how.ok) return unable(how.troubles);
  if (!question && !mayTell(how.settings)) {
    complain(
      `${target.shown} is for students to work out, as ${how.config} says (\`student\`), so only --question is rendered`,
    );
    return 1;
  }
  const note = examineNote(target.text, how.settings);
  const before = safeName(noteStem(file));
  const back = wayBack(out, target.path === null ? '.' : dirname(target.path));
  const rendered =
    note === null
      ? unmarked(target.text, back)
      : renderedNote(note, { question, before, folder: FIGURES, back });
  if (rendered.trouble !== null) {
    complain(`${target.shown}: ${rendered.trouble}`);
    return 1;
  }
  const output = standardOutput();
  for (const figure of rendered.figures) {
    const trouble = putFile(join(out, FIGURES), figure.file, figure.svg);
    if (trouble !== null) return unable(trouble);
  }
  const trouble = putFile(out, file, rendered.text);
  if (trouble !== null) return unable(trouble);
  await output.write(`${escapeControls(join(out, file))}\n`);
  const failure = await output.end();
  if (failure !== null) return unable(failure);
  return note !== null && tellErrors(note, target.shown) ? 1 : 0;
}

/** A note without blocks is published as it is, but for its links. */
function unmarked(text: string, back: string): RenderedNote {
  return { text: withEdits(text, movedLinks(text, back) ?? []), figures: [], trouble: null };
}

/** From the folder of the rendered note to the note's own; symbolic links are followed as far as the folders are there. */
function wayBack(out: string, home: string): string {
  return relative(realFolder(out), realFolder(home)).split(sep).join('/');
}

/** The folder with its real name; of one that is yet to be made that of the folder that it will be in. */
function realFolder(folder: string): string {
  const whole = resolve(folder);
  try {
    return realpathSync(whole);
  } catch {
    const above = dirname(whole);
    return above === whole ? whole : join(realFolder(above), basename(whole));
  }
}

function unable(troubles: string | readonly string[]): ExitStatus {
  for (const trouble of [troubles].flat()) complain(trouble);
  return 2;
}

function tellErrors(note: NoteCheck, shown: string): boolean {
  const errors = checkedNote(note).findings.filter(
    ({ severity, waived }) => severity === 'error' && waived === null,
  ).length;
  if (errors > 0)
    complain(
      `${shown} has ${errors === 1 ? 'an error' : `${errors} errors`}, which \`leastwise check\` tells: look at it before you publish it`,
    );
  return errors > 0;
}

function isSameFile(one: string, other: string): boolean {
  try {
    return realpathSync(one) === realpathSync(other);
  } catch {
    return false;
  }
}
