import {
  accessSync,
  closeSync,
  constants,
  existsSync,
  fchmodSync,
  fstatSync,
  fsyncSync,
  lstatSync,
  openSync,
  realpathSync,
  renameSync,
  rmSync,
  type Stats,
  statSync,
  writeSync,
} from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { makeFolder } from '../make-folder.ts';
import { isSettingsName } from '../note-settings.ts';
import { gathered, type Output } from '../output.ts';
import { partName, removeLeftParts } from '../part-name.ts';
import { isNoteName } from '../walk.ts';
import { writingTrouble } from '../writing-trouble.ts';

/** A file that a report is being written for, or the sentence that says why it cannot be. */
export type OpenedFile =
  | {
      readonly ok: true;
      readonly output: Output;
      /** The same for two names of one file. */
      readonly identity: string;
    }
  | { readonly ok: false; readonly trouble: string };

/**
 * Opens a report that goes into a file. It is written into another one beside it and takes its name when it is whole, so
 * that nobody ever sees a half; where that cannot be, what stood there stays. A missing folder is made.
 */
export function openReportFile(file: string): OpenedFile {
  const name = troubleWithName(file, file);
  if (name !== null) return refused(name);
  try {
    makeFolder(dirname(file));
    const standing = statSync(file, { throwIfNoEntry: false });
    if (standing === undefined && isLink(file)) return refused(`${file} is a link that leads nowhere`);
    const trouble = standing === undefined ? null : troubleWith(standing, file);
    if (trouble !== null) return refused(trouble);
    const place = placeOf(file);
    const behindLink = troubleWithName(place, file);
    if (behindLink !== null) return refused(behindLink);
    if (standing !== undefined) accessSync(place, constants.W_OK);
    return { ok: true, output: outputBeside(place, file, standing), identity: identityAt(place) };
  } catch (error) {
    return refused(writingTrouble(error, file));
  }
}

function refused(trouble: string): OpenedFile {
  return { ok: false, trouble };
}

function isLink(file: string): boolean {
  return lstatSync(file, { throwIfNoEntry: false })?.isSymbolicLink() === true;
}

/** What stands where a report should go, and is not to be replaced by one. */
function troubleWith(standing: Stats, file: string): string | null {
  if (standing.isDirectory()) return `${file} is a folder, and a report needs the name of a file`;
  if (!standing.isFile())
    return `${file} is no file that a report could take the place of: what goes to standard output is chosen by --format`;
  const isTaken = [1, 2].some(stream => {
    const { dev, ino } = streamStats(stream) ?? {};
    return dev === standing.dev && ino === standing.ino;
  });
  return isTaken ? `${file} is where the output of this very command goes already` : null;
}

function streamStats(stream: number): Stats | null {
  try {
    return fstatSync(stream);
  } catch {
    return null;
  }
}

/** What a later check would read as something else than a report; `shown` is what a sentence about it calls the file. */
function troubleWithName(file: string, shown: string): string | null {
  const what = isNoteName(file) ? 'note' : isSettingsName(basename(file)) ? 'configuration' : null;
  return what === null
    ? null
    : `${shown} is the name of a ${what}, and the next check would take the report for one`;
}

/** Where a file stands or would stand, without links. */
function placeOf(file: string): string {
  return existsSync(file) ? realpathSync(file) : join(realpathSync(dirname(file)), basename(file));
}

/** The same for two names of one file; null where nothing stands or could stand there. */
export function identityOf(file: string): string | null {
  try {
    return identityAt(placeOf(file));
  } catch {
    return null;
  }
}

/** Two systems take names that differ in the size of their letters for the same. */
function identityAt(place: string): string {
  return process.platform === 'darwin' || process.platform === 'win32' ? place.toLowerCase() : place;
}

function outputBeside(place: string, shown: string, standing: Stats | undefined): Output {
  const folder = dirname(place);
  removeLeftParts(folder);
  const beside = join(folder, partName());
  const open = openSync(beside, 'wx', 0o666);
  const { write, flush } = gathered(bytes => {
    for (let written = 0; written < bytes.length; ) written += writeSync(open, bytes, written);
  });
  let isOpen = true;
  const close = () => {
    if (isOpen) closeSync(open);
    isOpen = false;
  };
  const drop = async () => {
    close();
    rmSync(beside, { force: true });
    return null;
  };
  return {
    write,
    drop,
    end: async () => {
      try {
        const failure = await flush();
        if (failure !== null) throw failure;
        if (standing !== undefined) fchmodSync(open, standing.mode & 0o777);
        fsyncSync(open);
        close();
        renameSync(beside, place);
        return null;
      } catch (error) {
        await drop();
        const stays = standing === undefined ? '' : ', so the report that stood there stays';
        return `${writingTrouble(error, shown)}${stays}`;
      }
    },
  };
}
