import { isUtf8 } from 'node:buffer';
import { closeSync, constants, fstatSync, openSync, readFileSync, type Stats } from 'node:fs';
import { resolve } from 'node:path';

/** A note's text, or the sentence that says why there is none. */
export type NoteText =
  | { readonly ok: true; readonly text: string }
  | { readonly ok: false; readonly trouble: string };

/** Far more than anybody writes into one note; whatever is larger must not cost the run its memory. */
const LARGEST = 64 * 2 ** 20;
const LARGEST_SAID = 'at most 64 MB are read';

/** Without waiting for another program to write, and without taking a terminal over; Windows has no word for either. */
const AT_ONCE = constants.O_RDONLY | (constants.O_NONBLOCK ?? 0) | (constants.O_NOCTTY ?? 0);

/** What a shell hands over in place of a file, as in `check <(extract q7)`. */
const HANDED_OVER = /^\/(?:dev\/(?:fd\/\d+|stdin)|proc\/[^/]+\/fd\/\d+)$/;

/** Opens a file for reading, whatever it is: a pipe to which nobody writes keeps nobody waiting. */
export function openedAtOnce(path: string): number {
  return openSync(path, AT_ONCE);
}

/** What a file is to be, in a sentence that says that it is none; and how large it may be. */
interface Wanted {
  readonly what: string;
  readonly most: number;
}

const NOTE: Wanted = { what: 'note', most: LARGEST };
export const CONFIGURATION: Wanted = { what: 'configuration', most: LARGEST };
/** It has a line for each finding of a bank, so it may be of any size. */
export const BASELINE: Wanted = { what: 'baseline', most: Number.POSITIVE_INFINITY };

/** Reads one note from the disk, or another `wanted` file; `shown` is what a sentence about it calls it. */
export function readNote(path: string, shown: string = path, wanted: Wanted = NOTE): NoteText {
  let file: number | null = null;
  try {
    file = openedAtOnce(path);
    const stats = fstatSync(file);
    if (stats.isFIFO() && HANDED_OVER.test(resolve(path))) return decodeNote(readFileSync(path), shown);
    const trouble = noneOfThose(stats, shown, wanted);
    return trouble === null ? decodeNote(readFileSync(file), shown) : { ok: false, trouble };
  } catch (error) {
    return { ok: false, trouble: readingTrouble(error, shown, wanted) };
  } finally {
    if (file !== null) closeSync(file);
  }
}

/** Why something that has the name of a note is none: reading it might never end. Null for a file or a folder. */
function noneOfThose(stats: Stats, shown: string, { what, most }: Wanted): string | null {
  if (stats.isFIFO()) return `${shown} is a pipe between programs, not a ${what}`;
  if (stats.isCharacterDevice() || stats.isBlockDevice()) return `${shown} is a device, not a ${what}`;
  return stats.size > most ? tooLarge(shown, what) : null;
}

function tooLarge(shown: string, what: string): string {
  return `${shown} is too large for a ${what}: ${LARGEST_SAID}`;
}

/** Reads a note that another program hands over. */
export async function readStandardInput(shown: string): Promise<NoteText> {
  try {
    const pieces: Buffer[] = [];
    let size = 0;
    for await (const piece of process.stdin) {
      pieces.push(piece as Buffer);
      size += (piece as Buffer).length;
      if (size > LARGEST) return { ok: false, trouble: tooLarge(shown, NOTE.what) };
    }
    return decodeNote(Buffer.concat(pieces), shown);
  } catch (error) {
    return { ok: false, trouble: readingTrouble(error, shown) };
  }
}

/** Turns bytes into text, strictly: a note in any encoding but UTF-8 is refused, never guessed at. A byte-order mark stays. */
export function decodeNote(bytes: Buffer, shown: string): NoteText {
  const other = otherEncoding(bytes);
  if (other !== null) {
    return {
      ok: false,
      trouble: `${shown} is written in ${other}, which is not read here: save it as UTF-8`,
    };
  }
  if (!isUtf8(bytes)) {
    return {
      ok: false,
      trouble: `${shown} is not written in UTF-8 (line ${firstBadLine(bytes)} is the first that shows it): save it as UTF-8`,
    };
  }
  return { ok: true, text: bytes.toString('utf8') };
}

/** Nobody reads thousands of signs to learn that there are too many. */
function beginningOf(shown: string): string {
  return shown.length <= 100 ? shown : `${shown.slice(0, 100)}…`;
}

/** What a file is told as whose name is no text, so that no program here can open it. */
export function misreadTrouble(shown: string): string {
  return `${shown} cannot be opened: its name is not written in UTF-8, so give it another one`;
}

/** What a file or folder that cannot be read is told as, in one sentence. */
export function readingTrouble(error: unknown, shown: string, { what }: Wanted = NOTE): string {
  const code = (error as NodeJS.ErrnoException | null)?.code;
  switch (code) {
    case 'ENOENT':
    case 'ENOTDIR':
      if (shown.includes('\ufffd')) return misreadTrouble(shown);
      return `there is no file or folder ${shown}`;
    case 'EACCES':
    case 'EPERM':
      return `${shown} may not be read: the permission is missing`;
    case 'EISDIR':
      return `${shown} is a folder, not a ${what}`;
    case 'ELOOP':
      return `${shown} is a link that leads back to itself`;
    case 'ENAMETOOLONG':
      return `${beginningOf(shown)} is too long for the path of a file`;
    case 'ERR_STRING_TOO_LONG':
    case 'ERR_FS_FILE_TOO_LARGE':
      return `${shown} is too large for a ${what}`;
    case 'ENXIO':
    case 'ENODEV':
      return `${shown} is a socket or a device, not a ${what}`;
    default:
      return `${shown} could not be read (${code ?? String(error)})`;
  }
}

function otherEncoding(bytes: Buffer): string | null {
  const [first, second, third, fourth] = bytes;
  if (first === 0xff && second === 0xfe) {
    return third === 0 && fourth === 0 ? 'UTF-32 (little-endian)' : 'UTF-16 (little-endian)';
  }
  if (first === 0xfe && second === 0xff) return 'UTF-16 (big-endian)';
  if (first === 0 && second === 0 && third === 0xfe && fourth === 0xff) return 'UTF-32 (big-endian)';
  return looksLikeUnmarkedUtf16(bytes) ? 'UTF-16 (without a byte-order mark)' : null;
}

/** Latin text in UTF-16 has a zero in every other byte, and that is valid UTF-8 too, so it would pass unseen. */
function looksLikeUnmarkedUtf16(bytes: Buffer): boolean {
  const head = bytes.subarray(0, 512);
  let zeros = 0;
  for (const byte of head) if (byte === 0) zeros++;
  return head.length >= 2 && zeros * 4 >= head.length;
}

/** The first line that is not UTF-8; a line feed never stands inside a character, so each line can be tried alone. */
function firstBadLine(bytes: Buffer): number {
  let line = 1;
  let start = 0;
  for (;;) {
    const lineFeed = bytes.indexOf(10, start);
    if (lineFeed === -1 || !isUtf8(bytes.subarray(start, lineFeed))) return line;
    line++;
    start = lineFeed + 1;
  }
}
