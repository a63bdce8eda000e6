import { readdirSync, statSync } from 'node:fs';
import { isAbsolute, relative, resolve, sep } from 'node:path';
import { type Found, note, trouble } from './found.ts';
import { misreadNames } from './misread-names.ts';
import { misreadTrouble, readingTrouble } from './read.ts';
import { isNoteName, notesInFolder } from './walk.ts';

/**
 * The notes that the arguments of a command mean, in their order, each once.
 * What exists is taken literally, whatever signs its name holds; a folder stands for the notes in it;
 * anything else is a pattern.
 */
export async function* findNotes(paths: readonly string[]): AsyncGenerator<Found> {
  const seen = new Set<string>();
  for (const path of paths) {
    for (const found of await notesOf(path)) {
      if (found.kind === 'note' && paths.length > 1) {
        const whole = resolve(found.path);
        if (seen.has(whole)) continue;
        seen.add(whole);
      }
      yield found;
    }
  }
}

async function notesOf(path: string): Promise<Iterable<Found>> {
  if (path === '') return [trouble('an empty word names no note, no folder and no pattern')];
  const kind = kindOf(path);
  switch (kind.is) {
    case 'file':
      return [noteOrMisread(path, misreadNames())];
    case 'folder':
      return orTrouble(
        notesInFolder(path),
        `${path} holds no notes: it has no file that ends in .md or .markdown`,
      );
    case 'unreadable':
      return [trouble(kind.message)];
    case 'nothing':
      return orTrouble(await notesByPattern(path), `no note matches ${path}`);
  }
}

type Kind =
  | { readonly is: 'file' | 'folder' | 'nothing' }
  | { readonly is: 'unreadable'; readonly message: string };

function kindOf(path: string): Kind {
  try {
    const stats = statSync(path, { throwIfNoEntry: false });
    if (stats === undefined) return { is: 'nothing' };
    return { is: stats.isDirectory() ? 'folder' : 'file' };
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOTDIR') return { is: 'nothing' };
    return { is: 'unreadable', message: readingTrouble(error, path) };
  }
}

const LEFT_OUT = ['**/node_modules/**'];

/** The notes that a pattern means: files by name, and the notes in folders that it names, as a shell would have it. */
async function notesByPattern(typed: string): Promise<Iterable<Found>> {
  const pattern = sep === '\\' ? typed.replaceAll('\\', '/') : typed;
  const { globSync, isDynamicPattern } = await import('tinyglobby');
  const { faultOfBrackets } = await import('../config/ignored-notes.ts');
  const fault = faultOfBrackets(pattern);
  if (fault !== null)
    return [trouble(`there is no file ${typed}, and as a pattern it cannot be read: ${fault}`)];
  if (!isDynamicPattern(pattern)) return [trouble(`there is no file or folder ${typed}`)];
  const found: Found[] = [];
  const deep = pattern.includes('**');
  const names = globSync(pattern, {
    expandDirectories: false,
    onlyFiles: deep,
    ignore: pattern.includes('node_modules') ? [] : LEFT_OUT,
    fs: { readdirSync: tellingReaddir(pattern, found) },
  });
  const isMisread = misreadNames();
  for (const name of names.sort()) {
    if (!deep && kindOf(name).is === 'folder') found.push(...notesInFolder(withoutSlash(name)));
    else if (namesAnEnding(pattern) || isNoteName(name)) found.push(noteOrMisread(name, isMisread));
  }
  return found;
}

/** Which file somebody names whose name may be misread nobody knows; it must not pass for another. */
function noteOrMisread(path: string, isMisread: (path: string) => boolean): Found {
  return isMisread(path) ? trouble(misreadTrouble(path)) : note(path);
}

/** The library keeps quiet about a folder that it cannot open; the notes in it must not pass for right ones. */
function tellingReaddir(typed: string, found: Found[]): typeof readdirSync {
  const telling = (path: string, options: { withFileTypes: true }) => {
    try {
      return readdirSync(path, options);
    } catch (error) {
      const shown = isAbsolute(typed) ? path : relative('.', path) || '.';
      found.push(trouble(readingTrouble(error, withoutSlash(shown))));
      return [];
    }
  };
  return telling as typeof readdirSync;
}

function withoutSlash(path: string): string {
  return path.length > 1 && path.endsWith('/') ? path.slice(0, -1) : path;
}

/** Whether a pattern itself says how its files end (`*.txt`); where not (`lessons/*`), only notes are meant. */
function namesAnEnding(pattern: string): boolean {
  return pattern.slice(pattern.lastIndexOf('/') + 1).includes('.');
}

function* orTrouble(found: Iterable<Found>, message: string): Generator<Found> {
  let any = false;
  for (const each of found) {
    any = true;
    yield each;
  }
  if (!any) yield trouble(message);
}
