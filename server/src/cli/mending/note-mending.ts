import { lstatSync, realpathSync } from 'node:fs';
import { dirname, isAbsolute, relative, sep } from 'node:path';
import { mendedNote } from '../../actions/fix-all.ts';
import type { CheckedNote } from '../../checks/finding.ts';
import { coloursFor } from '../colours.ts';
import { removeLeftParts } from '../part-name.ts';
import { writeNote } from '../write-note.ts';
import { standsIn } from './given-folders.ts';
import { unifiedDiff } from './unified-diff.ts';

/** What is done with the sure fixes of a run's notes; plain data, so that another thread can be told. */
export interface Mending {
  /** Whether they are made in the notes, or only shown. */
  readonly mode: 'write' | 'show';
  /** Where something may be changed, without links. */
  readonly folders: readonly string[];
  /** Where a person watches what is shown, it must hold nothing that a terminal obeys; null where a program reads it. */
  readonly watched: { readonly colour: boolean } | null;
}

export interface NoteToMend {
  readonly path: string;
  readonly text: string;
  /** Whether it was handed over on standard input: then it goes to standard output, mended. */
  readonly isGiven: boolean;
  readonly check: (text: string) => CheckedNote;
}

/** A note after its sure fixes, as it now stands where it belongs. */
export interface Mended {
  readonly text: string;
  readonly checked: CheckedNote;
  /** How many fixes were made, or could be. */
  readonly fixes: number;
  /** What goes to standard output: the diff, or the note from standard input. */
  readonly shown: string;
  /** The file that the diff is of, without links; null where there is none. */
  readonly shownFile: string | null;
  readonly troubles: readonly string[];
  readonly notices: readonly string[];
}

/** What mending says of a note to which nothing was done. */
const NOTHING_DONE = {
  ...{ fixes: 0, shown: '', shownFile: null },
  ...{ troubles: [], notices: [] },
} satisfies Omit<Mended, 'text' | 'checked'>;

/** What the diff of a file calls it, and which file that is; null for the note on standard input. */
interface DiffOf {
  readonly as: string;
  readonly file: string | null;
}

/**
 * Makes the sure fixes of one note after the other, the same that an editor makes of all at once. A note that could not be
 * written stays as it was, and so does what is said of it.
 */
export function noteMending({ mode, folders, watched }: Mending): (note: NoteToMend) => Promise<Mended> {
  const allowed = new Set(folders);
  let cleared: string | null = null;

  /** The file behind a path; the sentence that says why it stays as it is, where it does. */
  const behind = (path: string): string | Partial<Mended> => {
    let file: string;
    try {
      file = realpathSync(path);
    } catch {
      return { troubles: [`${path} is gone since it was read, so it is not mended`] };
    }
    if (standsIn(allowed, file)) return file;
    return {
      notices: [
        `${path} leads out of what was named, to ${file}, so it is not mended: name that file to have it mended`,
      ],
    };
  };
  /** The sentence that says why a note stays as it is. */
  const written = (path: string, before: string, text: string): Partial<Mended> | null => {
    const file = behind(path);
    if (typeof file !== 'string') return file;
    // The notes of a folder come one after the other.
    if (cleared !== dirname(file)) removeLeftParts(dirname(file));
    cleared = dirname(file);
    const trouble = writeNote(path, before, text);
    return trouble === null ? null : { troubles: [trouble] };
  };
  /** The path for the diff of a file: no link's, which no program that applies a diff would follow. */
  const shownPath = (path: string, isGiven: boolean): DiffOf | Partial<Mended> => {
    if (isGiven) return { as: path, file: null };
    const file = behind(path);
    if (typeof file !== 'string') return file;
    return { as: lstatSync(path).isSymbolicLink() ? file : path, file };
  };

  return async ({ path, text, isGiven, check }) => {
    const { first, last, mended } = mendedAndChecked(text, check);
    const asItWas: Mended = { text, checked: first, ...NOTHING_DONE };
    const asMended: Mended = { ...asItWas, text: mended.text, checked: last, fixes: mended.fixes };
    if (mode === 'show') {
      if (mended.edits.length === 0) return asItWas;
      const diffOf = shownPath(path, isGiven);
      if (!('as' in diffOf)) return { ...asItWas, ...diffOf };
      const shown = unifiedDiff(diffPath(diffOf.as), text, mended.edits);
      return {
        ...asItWas,
        fixes: mended.fixes,
        shown: watched === null ? shown : await readable(shown, watched.colour),
        shownFile: diffOf.file,
      };
    }
    if (isGiven) return { ...asMended, shown: mended.text };
    if (mended.text === text) return asItWas;
    const left = written(path, text, mended.text);
    return left === null ? asMended : { ...asItWas, ...left };
  };
}

/** The note mended, with what a check says of it before and after. */
function mendedAndChecked(text: string, check: (text: string) => CheckedNote) {
  let first: CheckedNote | null = null;
  let last: { readonly text: string; readonly checked: CheckedNote } | null = null;
  const remembering = (current: string): CheckedNote => {
    const checked = check(current);
    first ??= checked;
    last = { text: current, checked };
    return checked;
  };
  const mended = mendedNote(text, remembering);
  const known = last as { readonly text: string; readonly checked: CheckedNote } | null;
  return {
    mended,
    first: first ?? check(text),
    last: known?.text === mended.text ? known.checked : check(mended.text),
  };
}

/** From where the command runs, as far as that can be said: programs that apply a diff take no other path. */
function diffPath(path: string): string {
  const inside = relative('.', path);
  const short = inside === '' || inside.startsWith('..') || isAbsolute(inside) ? path : inside;
  return sep === '\\' ? short.replaceAll('\\', '/') : short;
}

/** A diff as a person reads it; nothing in it is obeyed by a terminal. */
async function readable(diff: string, withColours: boolean): Promise<string> {
  const { escapeControls } = await import('../escape-controls.ts');
  const { green, red, dim } = await coloursFor(withColours);
  const paints = new Map([
    ['+', green],
    ['-', red],
    ['@', dim],
  ]);
  const lines = diff.split('\n').map(line => {
    const shown = line.replace(/\r$/, '').split('\t').map(escapeControls).join('\t');
    return paints.get(shown.slice(0, 1))?.(shown) ?? shown;
  });
  return lines.join('\n');
}
