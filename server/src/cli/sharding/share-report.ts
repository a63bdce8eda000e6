import { createHash } from 'node:crypto';
import { closeSync, fstatSync, readSync } from 'node:fs';
import { openedAtOnce, readingTrouble } from '../read.ts';
import { SEAL_FIELD, SEAL_LENGTH } from './sealed-reporter.ts';
import { closingOf, type ShareClosing, type Totals } from './share-closing.ts';
import type { ShareFacts } from './share-facts.ts';

/** The JSON document of one share, found whole and unchanged. */
export interface ShareReport {
  readonly path: string;
  readonly facts: ShareFacts;
  readonly totals: Totals;
  /** The notes one by one, each as the document has it. Throws where the file is no longer the one that was looked at. */
  readonly notes: () => Generator<string>;
}

export type LookedAt =
  | { readonly ok: true; readonly report: ShareReport }
  | { readonly ok: false; readonly trouble: string };

/** How every JSON document begins. */
export const OPENING = '{"version":1,"notes":[';
const PIECE = 65_536;
const LINE_FEED = 10;

/** What stands below the notes is short; a longer line is none of ours. */
const MOST_CLOSING = 16 * 1024 * 1024;

/** No note's facts are nearly as long; a file without line ends must not fill the memory. */
const MOST_LINE = 256 * 1024 * 1024;

/**
 * Looks whether a file is the JSON document of a share, whole, and as it was written. It is read piece by piece, so
 * it may be of any size. A document that was written anew by another program is refused: its seal no longer fits.
 */
export function shareReport(path: string): LookedAt {
  try {
    return withFile(path, file => lookedAt(path, file));
  } catch (error) {
    return { ok: false, trouble: readingTrouble(error, path) };
  }
}

function lookedAt(path: string, file: number): LookedAt {
  const stats = fstatSync(file);
  if (!stats.isFile()) return no(`${path} is not a file`);
  const bytes = bytesAt(file, 0, OPENING.length).toString('latin1');
  if (bytes !== OPENING) {
    return no(
      bytes.startsWith('{')
        ? `${path} is not as \`leastwise check\` wrote it, so it is not certain that nothing is missing: hand the file over unchanged`
        : `${path} is not a JSON report of leastwise`,
    );
  }
  const tail = lastLine(file, stats.size);
  if (tail === null) return no(cutOff(path));
  const closing = closingOf(tail);
  switch (closing.kind) {
    case 'broken':
      return no(cutOff(path));
    case 'whole':
      return no(
        `${path} is the report of a whole bank and not of a share, so there is nothing to put together`,
      );
    case 'share':
      return sealed(path, file, closing);
  }
}

function sealed(path: string, file: number, { facts, totals, seal }: ShareClosing): LookedAt {
  const { size, mtimeMs, ino } = fstatSync(file);
  const { digest, lines } = digestAndLines(file, size - SEAL_LENGTH);
  const { notes = 0 } = totals;
  const left = facts.without.reduce((sum, [, count]) => sum + count, 0);
  const field = bytesAt(file, size - SEAL_LENGTH, SEAL_FIELD.length).toString('latin1');
  // One that was interrupted was dealt notes that it never came to.
  const isFull = facts.bank === null || notes + left === facts.places;
  const isWhole = isFull && lines === notes + 1;
  if (field !== SEAL_FIELD || digest !== seal || !isWhole)
    return no(
      `${path} was changed after \`leastwise check\` wrote it, so it cannot be relied upon: check that share again`,
    );
  const isSame = (now: number) => {
    const stats = fstatSync(now);
    return stats.size === size && stats.mtimeMs === mtimeMs && stats.ino === ino;
  };
  return {
    ok: true,
    report: { path, facts, totals, notes: () => noteLines(path, notes, isSame) },
  };
}

function no(trouble: string): LookedAt {
  return { ok: false, trouble };
}

function cutOff(path: string): string {
  return `${path} is not whole, for its end is missing: check that share again`;
}

function withFile<Result>(path: string, use: (file: number) => Result): Result {
  const file = openedAtOnce(path);
  try {
    return use(file);
  } finally {
    closeSync(file);
  }
}

function bytesAt(file: number, from: number, length: number): Buffer {
  const bytes = Buffer.alloc(Math.max(length, 0));
  return bytes.subarray(0, from < 0 ? 0 : readSync(file, bytes, 0, bytes.length, from));
}

/** The last line, without its line end; null where the file does not end a line, or the line is too long. */
function lastLine(file: number, size: number): string | null {
  for (let length = PIECE; ; length *= 4) {
    const from = Math.max(size - length, 0);
    const bytes = bytesAt(file, from, size - from);
    if (bytes.at(-1) !== LINE_FEED) return null;
    const start = bytes.lastIndexOf(LINE_FEED, bytes.length - 2);
    if (start !== -1) return bytes.toString('utf8', start + 1, bytes.length - 1);
    if (from === 0 || length > MOST_CLOSING) return null;
  }
}

function digestAndLines(file: number, until: number): { readonly digest: string; readonly lines: number } {
  const hash = createHash('sha256');
  const bytes = Buffer.alloc(PIECE);
  let lines = 0;
  for (let at = 0; at < until; ) {
    const read = readSync(file, bytes, 0, Math.min(PIECE, until - at), at);
    if (read === 0) break;
    const piece = bytes.subarray(0, read);
    hash.update(piece);
    for (let end = piece.indexOf(LINE_FEED); end !== -1; end = piece.indexOf(LINE_FEED, end + 1)) lines++;
    at += read;
  }
  return { digest: hash.digest('hex'), lines };
}

/** A file is open only while a piece of it is read, for a bank may have more shares than a program may open files. */
function* noteLines(path: string, count: number, isSame: (file: number) => boolean): Generator<string> {
  let at = OPENING.length + 1;
  let rest: Buffer = Buffer.alloc(0);
  for (let given = 0; given < count; ) {
    let end = rest.indexOf(LINE_FEED);
    while (end === -1) {
      const piece = withFile(path, file => (isSame(file) ? bytesAt(file, at, PIECE) : Buffer.alloc(0)));
      if (piece.length === 0 || rest.length > MOST_LINE) throw new Error('changed');
      at += piece.length;
      const from = rest.length;
      rest = Buffer.concat([rest, piece]);
      end = rest.indexOf(LINE_FEED, from);
    }
    // Every note but the last is followed by a comma.
    given++;
    yield rest.toString('utf8', 0, given < count ? end - 1 : end);
    rest = rest.subarray(end + 1);
  }
}
