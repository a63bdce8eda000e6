import { readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { makeFolder } from './make-folder.ts';
import { placeWhole } from './place-whole.ts';
import { writingTrouble } from './writing-trouble.ts';

/**
 * Puts a whole file into a folder, which is made where it is missing: whoever reads it meanwhile sees the old one or
 * the new one, and what a link of that name leads to is left alone.
 *
 * Gives the sentence that says why it could not be done, or null. A name that would lead out of the folder is refused.
 */
export function putFile(folder: string, name: string, content: string): string | null {
  const path = join(folder, name);
  if (name !== basename(name) || name === '' || name === '.' || name === '..' || /[/\\\0]/.test(name))
    return `${name} would lead out of ${folder}, so it is not written`;
  try {
    makeFolder(folder);
    if (holds(path, content)) return null;
    placeWhole(path, content, { mode: 0o666 });
    return null;
  } catch (error) {
    return writingTrouble(error, path);
  }
}

/** A file that is as it should be is not touched, so that nothing that watches it wakes up. */
function holds(path: string, content: string): boolean {
  try {
    return readFileSync(path, 'utf8') === content;
  } catch {
    return false;
  }
}
