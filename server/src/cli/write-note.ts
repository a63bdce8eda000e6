import { accessSync, chmodSync, chownSync, constants, readFileSync, realpathSync, statSync } from 'node:fs';
import { placeWhole } from './place-whole.ts';
import { decodeNote } from './read.ts';
import { writingTrouble } from './writing-trouble.ts';

/**
 * Puts a note's new text in the place of the one that was read, all at once: whoever reads the note meanwhile sees one
 * or the other, and a failure leaves the old one. Rights and owner stay, a link goes on leading to its file.
 *
 * Gives the sentence that says why it could not be done, or null. A note that somebody else has changed since `before`
 * was read is left alone, and so is one that is for reading only.
 */
export function writeNote(path: string, before: string, text: string): string | null {
  let changed: string | null = null;
  try {
    const file = realpathSync(path);
    const stats = statSync(file);
    if (!stats.isFile()) return `${path} could not be written: it is no file that another could replace`;
    // A folder lets its owner replace even what may not be written.
    accessSync(file, constants.W_OK);
    const mayPlace = (beside: string): boolean => {
      keepOwner(beside, stats.uid, stats.gid);
      chmodSync(beside, stats.mode & 0o7777);
      const now = decodeNote(readFileSync(file), path);
      if (now.ok && now.text === before) return true;
      // Another name of the same file may have brought the same words already.
      if (!now.ok || now.text !== text)
        changed = `${path} was changed by somebody else in the meantime, so nothing was written`;
      return false;
    };
    // Until it has the rights of the note it is nobody else's to read.
    placeWhole(file, text, { mayPlace });
    return changed;
  } catch (error) {
    return writingTrouble(error, path);
  }
}

/** Only an administrator may hand a file to another owner; anybody else's new file is theirs anyhow. */
function keepOwner(path: string, uid: number, gid: number): void {
  try {
    chownSync(path, uid, gid);
  } catch {
    // The note keeps its words, which matters more than its owner.
  }
}
