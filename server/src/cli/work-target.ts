import { statSync } from 'node:fs';
import { type NoteText, readNote, readStandardInput } from './read.ts';

/** What NOTE[#BLOCK] means: the note's text, and the block of it that is asked for. */
export type WorkTarget =
  | {
      readonly ok: true;
      /** What sentences call the note. */
      readonly shown: string;
      /** The file that it stands in; null for standard input. */
      readonly path: string | null;
      readonly text: string;
      /** The block's name as typed; null for all blocks. */
      readonly block: string | null;
    }
  | { readonly ok: false; readonly trouble: string };

const STDIN = '-';

/**
 * Reads the note that an argument names. A file whose own name holds a # is taken literally; else the last # parts note
 * and block, and without a note before it the one on standard input is meant.
 */
export async function readTarget(typed: string, stdinFilename: string | null): Promise<WorkTarget> {
  const { note, block } = parts(typed);
  if (note === STDIN) {
    const shown = stdinFilename ?? 'the note on standard input';
    return target(shown, null, block, await readStandardInput(shown));
  }
  return target(note, note, block, readNote(note));
}

function target(shown: string, path: string | null, block: string | null, read: NoteText): WorkTarget {
  return read.ok ? { ok: true, shown, path, text: read.text, block } : read;
}

function parts(typed: string): { readonly note: string; readonly block: string | null } {
  const at = typed.lastIndexOf('#');
  if (at < 0 || isThere(typed)) return { note: typed, block: null };
  const block = typed.slice(at + 1).trim();
  return { note: typed.slice(0, at) || STDIN, block: block === '' ? null : block };
}

function isThere(path: string): boolean {
  try {
    return statSync(path, { throwIfNoEntry: false }) !== undefined;
  } catch {
    return false;
  }
}
