import { sep } from 'node:path';
import { findNotes } from '../files.ts';
import { readStandardInput } from '../read.ts';
import { isTerminal } from '../terminal.ts';
import type { NoteTask } from './note-work.ts';

const STDIN = '-';

/** A note to look at, or the sentence that says why an argument gives none. */
export type Found =
  | { readonly kind: 'task'; readonly task: NoteTask }
  | { readonly kind: 'trouble'; readonly message: string };

/**
 * What the arguments of a command mean, in the order of the report: the note on standard input first, then the files,
 * folders and patterns as they are named. `stdinFilename` is what the former is called.
 */
export async function* noteTasks(
  paths: readonly string[],
  stdinFilename: string | null,
): AsyncGenerator<Found> {
  if (paths.length === 0 && (await isTerminal(0))) {
    const message =
      'nothing to check: name a note, a folder or a pattern, or hand a note over on standard input';
    yield { kind: 'trouble', message };
    return;
  }
  const files = filesAmong(paths);
  if (hasStandardInput(paths)) {
    const path = stdinFilename ?? STDIN;
    const given = await readStandardInput(path === STDIN ? 'the note on standard input' : path);
    yield { kind: 'task', task: { path: shown(path), isMeant: true, given, recorded: null } };
  }
  const meant = new Set(files);
  for await (const found of findNotes(files)) {
    if (found.kind === 'trouble') yield found;
    else {
      const { path } = found;
      yield {
        kind: 'task',
        task: { path: shown(path), isMeant: meant.has(path), given: null, recorded: null },
      };
    }
  }
}

/** The arguments but for standard input, which can be read but once. */
export function filesAmong(paths: readonly string[]): readonly string[] {
  return paths.filter(path => path !== STDIN);
}

/** Whether one of the notes stands on standard input. */
export function hasStandardInput(paths: readonly string[]): boolean {
  return paths.length === 0 || paths.includes(STDIN);
}

/** As every system writes a path; Windows reads it as well. */
function shown(path: string): string {
  return sep === '\\' ? path.replaceAll('\\', '/') : path;
}
