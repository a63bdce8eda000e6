import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { makeFolder } from '../make-folder.ts';
import { placeWhole } from '../place-whole.ts';
import { errorCode, writingTrouble } from '../writing-trouble.ts';

/** A folder that keeps what checks gave; plain data, so that another thread can be told. */
export interface CacheFolder {
  /** From the root of the disk, and as it was typed. */
  readonly path: string;
  readonly shown: string;
}

/** The folder, ready; or the sentence that says why it cannot be used, and whether it is somebody else's. */
export type PreparedFolder =
  | { readonly kind: 'ready'; readonly folder: CacheFolder }
  | { readonly kind: 'foreign' | 'unusable'; readonly message: string };

/**
 * The mark of a cache: the first line is what backup programs look for (the Cache Directory Tagging Specification),
 * the second says whose it is. Without it nothing in a folder is ours, so nothing is written or deleted there.
 */
const MARK_NAME = 'CACHEDIR.TAG';
const MARK = `Signature: 8a477f597d28d172789f06886806bc55
# This folder keeps what leastwise found in notes, so that they need not be checked again.
# It may be deleted at any time.
`;

/** A cache may serve more than one user. */
const FOR_ALL = { mode: 0o666 };

/** Files that are being written beside the one that they will be; see `partName`. */
const PART = /^\.leastwise-.*\.part$/;

/** Makes a folder a cache, or finds that it is one. One that holds other things is refused, whoever named it. */
export function prepareCacheFolder(shown: string): PreparedFolder {
  try {
    const path = resolve(shown);
    makeFolder(path);
    if (!isMarked(path)) {
      if (readdirSync(path).some(name => name !== MARK_NAME && !PART.test(name)))
        return foreign(`${shown} holds other things than a cache`);
      putMark(path);
      if (!isMarked(path)) return foreign(`${shown} is the cache of another program`);
    }
    keepOutOfGit(path);
    return { kind: 'ready', folder: { path, shown } };
  } catch (error) {
    const code = errorCode(error);
    if (code === 'EEXIST' || code === 'ENOTDIR') return foreign(`${shown} is a file`);
    return {
      kind: 'unusable',
      message: `${writingTrouble(error, shown)}, so nothing is kept for the next run`,
    };
  }
}

function foreign(why: string): PreparedFolder {
  return {
    kind: 'foreign',
    message: `${why}, so nothing is kept in it: name a new or an empty folder after \`--cache\`, and the notes before it`,
  };
}

function isMarked(path: string): boolean {
  try {
    return readFileSync(join(path, MARK_NAME), 'utf8') === MARK;
  } catch (error) {
    if (errorCode(error) === 'ENOENT') return false;
    throw error;
  }
}

/**
 * Where another run marks the folder in the same moment, both put the same mark; a mark of another program stays. It
 * reaches the disk before anything else is kept: without it all the rest would be nobody's.
 */
function putMark(path: string): void {
  if (!readdirSync(path).includes(MARK_NAME)) placeWhole(join(path, MARK_NAME), MARK, FOR_ALL);
}

function keepOutOfGit(path: string): void {
  const file = join(path, '.gitignore');
  try {
    if (!existsSync(file)) placeWhole(file, '*\n', FOR_ALL);
  } catch (error) {
    // A cache that may be read and not written to still serves.
    if (errorCode(error) === 'ENOSPC') throw error;
  }
}
