import { type Dirent, opendirSync, statSync } from 'node:fs';
import { type Found, note, trouble } from './found.ts';
import { misreadNames } from './misread-names.ts';
import { misreadTrouble, readingTrouble } from './read.ts';

const NOTE_ENDING = /\.(md|markdown)$/i;

/** Whether a file is a note by its name. */
export function isNoteName(name: string): boolean {
  return NOTE_ENDING.test(name);
}

/**
 * The notes in a folder, in the order of their paths. Folders named node_modules, names that begin with
 * a dot, and links to folders are left out. One folder at a time is open, so a bank may be of any size.
 */
export function* notesInFolder(folder: string): Generator<Found> {
  const start = folder === '.' ? '' : /[/\\]$/.test(folder) ? folder : `${folder}/`;
  yield* notesBelow(folder, start, misreadNames());
}

function* notesBelow(folder: string, start: string, isMisread: (path: string) => boolean): Generator<Found> {
  let names: string[];
  try {
    names = namesIn(folder, start);
  } catch (error) {
    // It must be told: notes that nobody checked would pass for right ones.
    yield trouble(readingTrouble(error, folder));
    return;
  }
  for (const name of names.sort()) {
    const path = start + name;
    if (isMisread(path)) yield trouble(misreadTrouble(path.replace(/\/$/, '')));
    else if (name.endsWith('/')) yield* notesBelow(path.slice(0, -1), path, isMisread);
    else yield note(path);
  }
}

/** The names of the notes and folders in a folder; a folder's name ends in a slash, as it does within a path. */
function namesIn(folder: string, start: string): string[] {
  const names: string[] = [];
  const open = opendirSync(folder);
  try {
    for (let entry = open.readSync(); entry !== null; entry = open.readSync()) {
      if (entry.name.startsWith('.') || entry.name === 'node_modules') continue;
      if (entry.isDirectory()) names.push(`${entry.name}/`);
      else if (isNoteName(entry.name) && isMeantAsNote(entry, start)) names.push(entry.name);
    }
  } finally {
    open.closeSync();
  }
  return names;
}

/**
 * Whether an entry with the name of a note stands for one. A link counts as what it leads to; a link to nowhere or round
 * in a ring, a pipe and a device are kept too, so that the reading tells them.
 */
function isMeantAsNote(entry: Dirent, start: string): boolean {
  if (!entry.isSymbolicLink()) return true;
  try {
    return statSync(start + entry.name, { throwIfNoEntry: false })?.isDirectory() !== true;
  } catch {
    return true;
  }
}
