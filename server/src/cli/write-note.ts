import {
  chmodSync,
  chownSync,
  readFileSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { decodeNote } from './read.ts';
import { errorCode, writingTrouble } from './writing-trouble.ts';

/**
 * Puts a note's new text in the place of the one that was read, all at once: whoever reads the note meanwhile sees one
 * or the other, and a failure leaves the old one. Rights and owner stay, a link goes on leading to its file.
 *
 * Gives the sentence that says why it could not be done, or null. A note that somebody else has changed since `before`
 * was read is left alone.
 */
export function writeNote(path: string, before: string, text: string): string | null {
  let beside: string | null = null;
  try {
    const file = realpathSync(path);
    const { mode, uid, gid } = statSync(file);
    beside = join(dirname(file), `.${basename(file)}.${process.pid}`);
    writeFileSync(beside, text, { flag: 'wx' });
    keepOwner(beside, uid, gid);
    chmodSync(beside, mode & 0o7777);
    const now = decodeNote(readFileSync(file), path);
    if (!now.ok || now.text !== before) {
      rmSync(beside, { force: true });
      return `${path} was changed by somebody else in the meantime, so nothing was written`;
    }
    renameSync(beside, file);
    return null;
  } catch (error) {
    if (beside !== null && errorCode(error) !== 'EEXIST') rmSync(beside, { force: true });
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
