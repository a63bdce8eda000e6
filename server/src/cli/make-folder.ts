import { mkdirSync, statSync } from 'node:fs';
import { dirname } from 'node:path';
import { errorCode } from './writing-trouble.ts';

/**
 * Makes a folder, and those above it that are missing; one that is there stays. What Node has for this tries for ever where
 * a folder is gone in which the command still runs.
 */
export function makeFolder(path: string): void {
  try {
    makeOne(path);
  } catch (error) {
    const above = dirname(path);
    if (errorCode(error) !== 'ENOENT' || above === path || isFolder(above)) throw error;
    makeFolder(above);
    makeOne(path);
  }
}

/** Another program may be making the same folder. */
function makeOne(path: string): void {
  try {
    mkdirSync(path);
  } catch (error) {
    if (!isFolder(path)) throw error;
  }
}

function isFolder(path: string): boolean {
  try {
    return statSync(path, { throwIfNoEntry: false })?.isDirectory() === true;
  } catch {
    return false;
  }
}
