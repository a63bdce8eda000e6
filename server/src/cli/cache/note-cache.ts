import { createHash } from 'node:crypto';
import {
  closeSync,
  constants,
  fstatSync,
  futimesSync,
  lstatSync,
  mkdirSync,
  openSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { checkNote } from '../../checks/check.ts';
import { checkedBlock } from '../../checks/checked-block.ts';
import type { CheckedBlock, CheckedNote } from '../../checks/finding.ts';
import type { Settings } from '../../checks/settings.ts';
import { partName } from '../part-name.ts';
import { errorCode, writingTrouble } from '../writing-trouble.ts';
import { buildDigest } from './build-digest.ts';
import { cacheEntry, readCacheEntry } from './cache-entry.ts';
import type { CacheFolder } from './cache-folder.ts';

/** Checks as `checkNote` does, and looks first whether the answer is known. */
export interface NoteCache {
  readonly check: (text: string, settings: Settings) => CheckedNote;
  /** Sentences that somebody should read, since the last call; the same words in every thread. */
  readonly notices: () => readonly string[];
}

/** How old the mark of the last use may become before it is renewed: writing it each time would cost as much as reading. */
const A_DAY = 24 * 60 * 60 * 1000;

/** No answer about a note is nearly as long; a file that is cannot be ours. */
const MOST_BYTES = 256 * 1024 * 1024;

/**
 * Keeps what checks gave, a file for each note, below the key of all that the answer depends on: the build of the
 * command, Node's tables of letters, the settings and the text. Files are renamed into place when they are whole, so
 * a run that is killed, or another that runs beside this one, leaves no half of one; and each bears a digest, so what is
 * damaged all the same is found out, checked anew and written again. What only a report of all quantities needs is
 * worked out and kept only for a run that `tellsQuantities`; another may still ask for them, and waits.
 */
export function noteCache(folder: CacheFolder, tellsQuantities: boolean): NoteCache {
  const origin = buildDigest();
  if (origin === null) return { check: checkNote, notices: () => [] };
  const files = entryFiles(folder);
  const settingsTexts = new WeakMap<Settings, string>();
  const keyOf = (text: string, settings: Settings): string => {
    // Which notes are left out says nothing about one that is not.
    const known = settingsTexts.get(settings) ?? JSON.stringify({ ...settings, ignore: [] });
    settingsTexts.set(settings, known);
    const head = JSON.stringify([origin, process.version, known, tellsQuantities]);
    return createHash('sha256').update(head).update('\n').update(text).digest('hex');
  };
  return {
    check: (text, settings) => {
      // Such a note is checked sooner than it is looked up.
      if (!/measurement/i.test(text)) return checkNote(text, settings);
      const key = keyOf(text, settings);
      const kept = files.read(key);
      if (kept !== null) return tellsQuantities ? kept : withLateQuantities(kept, text, settings);
      const checked = checkNote(text, settings);
      const plain = asPlainData(checked, tellsQuantities);
      files.write(key, plain);
      return tellsQuantities ? plain : checked;
    },
    notices: files.notices,
  };
}

/** To be written down, with the quantities worked out where they are told. */
function asPlainData({ blocks, findings }: CheckedNote, tellsQuantities: boolean): CheckedNote {
  return {
    blocks: blocks.map(block => {
      const { name, span, claims } = block;
      return { name, span, quantities: tellsQuantities ? block.quantities : [], claims };
    }),
    findings,
  };
}

/** The same with quantities that are worked out when somebody asks after all. */
function withLateQuantities(
  { blocks, findings }: CheckedNote,
  text: string,
  settings: Settings,
): CheckedNote {
  let anew: CheckedNote | null = null;
  const quantitiesOf = (at: number): CheckedBlock['quantities'] => {
    anew ??= checkNote(text, settings);
    return anew.blocks[at]!.quantities;
  };
  return { blocks: blocks.map((block, at) => checkedBlock(block, () => quantitiesOf(at))), findings };
}

interface EntryFiles {
  /** What is kept below a key; null where there is nothing that can be used. */
  readonly read: (key: string) => CheckedNote | null;
  readonly write: (key: string, note: CheckedNote) => void;
  readonly notices: () => readonly string[];
}

function entryFiles({ path, shown }: CacheFolder): EntryFiles {
  const part = partName();
  const real = new Set<string>();
  let said: string[] = [];
  let mayWrite = true;
  const damaged = () => {
    said.push(`a part of the cache in ${shown} was damaged: its notes are checked anew`);
    return null;
  };
  return {
    read: key => {
      try {
        const bytes = usedFile(join(path, ...placeOf(key)));
        return (bytes === null ? null : readCacheEntry(key, bytes)) ?? damaged();
      } catch (error) {
        return errorCode(error) === 'ENOENT' ? null : damaged();
      }
    },
    write: (key, note) => {
      if (!mayWrite) return;
      const [shelf, name] = placeOf(key);
      const beside = join(path, shelf, part);
      try {
        if (!real.has(shelf)) makeRealFolder(join(path, shelf));
        real.add(shelf);
        writeFileSync(beside, cacheEntry(key, note));
        renameSync(beside, join(path, shelf, name));
      } catch (error) {
        remove(beside);
        // Something of another kind stands there, which was told as damage; the others can still be kept.
        if (IN_THE_WAY.has(errorCode(error) ?? '')) return;
        mayWrite = false;
        said.push(`${unkept(error, shown)}, so what this run finds is not kept for the next`);
      }
    },
    notices: () => {
      const sentences = said;
      said = [];
      return sentences;
    },
  };
}

const IN_THE_WAY: ReadonlySet<string> = new Set(['EISDIR', 'ENOTDIR', 'EEXIST', 'ENOTEMPTY']);

function unkept(error: unknown, shown: string): string {
  return errorCode(error) === 'ENOENT' ? `${shown} was removed by somebody` : writingTrouble(error, shown);
}

/** One of 256 folders, so that none becomes too large, and the name in it. */
function placeOf(key: string): readonly [shelf: string, name: string] {
  return [key.slice(0, 2), key.slice(2)];
}

/** The bytes of a file, which counts as used now; null for what is no file, be it a pipe that nobody writes to. */
function usedFile(path: string): Buffer | null {
  const file = openSync(path, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0));
  try {
    const stats = fstatSync(file);
    if (!stats.isFile() || stats.size > MOST_BYTES) return null;
    if (Date.now() - stats.mtimeMs > A_DAY) markUsed(file);
    return readFileSync(file);
  } finally {
    closeSync(file);
  }
}

/** A file that may only be read is used all the same; it will only be dropped sooner. */
function markUsed(file: number): void {
  try {
    const now = new Date();
    futimesSync(file, now, now);
  } catch {
    // As said above.
  }
}

/** A link would lead out of the cache; and what was removed as a whole is not begun again without its mark. */
function makeRealFolder(path: string): void {
  try {
    mkdirSync(path);
  } catch (error) {
    if (errorCode(error) !== 'EEXIST' || !lstatSync(path).isDirectory()) throw error;
  }
}

function remove(path: string): void {
  try {
    rmSync(path, { force: true });
  } catch {
    // The next cleaning finds it.
  }
}
