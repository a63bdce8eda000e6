import { lstatSync, readdirSync, statSync, unlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { removeLeftParts } from '../part-name.ts';
import type { CacheFolder } from './cache-folder.ts';

const A_DAY = 24 * 60 * 60 * 1000;

/** What was not used for so many days is dropped; README.md tells it. */
const KEPT_DAYS = 30;

/** When a cache was last cleaned is the age of this file in it. */
const SWEPT = 'swept';

const SHELF = /^[0-9a-f]{2}$/;
const ENTRY = /^[0-9a-f]{62}$/;

/**
 * Drops from a cache what was not used for thirty days, and the remains of runs that were killed; at most once a day, for
 * it looks at every file. Only names that we give ourselves are touched. What another run removes meanwhile, or what may
 * not be removed, is passed over: it takes room and does no harm.
 */
export function sweepCache({ path }: CacheFolder): void {
  const now = Date.now();
  const swept = join(path, SWEPT);
  if (Math.abs(now - (modified(swept) ?? 0)) < A_DAY) return;
  removeLeftParts(path);
  for (const shelf of namesIn(path).filter(name => SHELF.test(name))) {
    const folder = join(path, shelf);
    if (!isRealFolder(folder)) continue;
    removeLeftParts(folder);
    for (const name of namesIn(folder).filter(name => ENTRY.test(name)))
      dropUnused(join(folder, name), now - KEPT_DAYS * A_DAY);
  }
  quietly(() => writeFileSync(swept, ''));
}

function dropUnused(path: string, before: number): void {
  const time = modified(path);
  if (time !== null && time < before) quietly(() => unlinkSync(path));
}

function namesIn(folder: string): readonly string[] {
  try {
    return readdirSync(folder);
  } catch {
    return [];
  }
}

function isRealFolder(path: string): boolean {
  return lstatSync(path, { throwIfNoEntry: false })?.isDirectory() === true;
}

/** When a file was last written or used; null where it is gone or may not be looked at. */
function modified(path: string): number | null {
  try {
    return statSync(path).mtimeMs;
  } catch {
    return null;
  }
}

function quietly(work: () => void): void {
  try {
    work();
  } catch {
    // As said above.
  }
}
