import { type Change, changeBetween } from './change-between.ts';

/** A note's text at one moment, of which pieces can be had without putting all of it together. */
export interface NoteText {
  readonly length: number;
  slice(start: number, end: number): string;
  whole(): string;
  /** What differs from an earlier text of the same note; null where nobody knows any more. */
  changeSince(earlier: NoteText): Change | null;
}

/** A text that is there as a whole. */
export function asNoteText(text: string | NoteText): NoteText {
  if (typeof text !== 'string') return text;
  return {
    length: text.length,
    slice: (start, end) => text.slice(start, end),
    whole: () => text,
    changeSince: earlier => changeBetween(earlier.whole(), text),
  };
}

/** A text that is being written, each state of which shares with the one before what did not change. */
export interface WrittenText extends NoteText {
  /** The same text with what stands from `start` to `end` replaced. */
  replaced(start: number, end: number, by: string): WrittenText;
}

/** So long is a piece at first: short enough to be copied for each letter, and few enough to be counted through. */
const PIECE = 8192;

/** So many of the last changes are known. */
const CHANGES = 100;

/** The changes of one text, from the first state that is still known. */
interface History {
  first: number;
  readonly changes: Change[];
}

/** Begins a text that is going to be changed again and again. */
export function writtenText(text: string): WrittenText {
  return stateOf(piecesOf(text), { first: 0, changes: [] }, 0, text);
}

function piecesOf(text: string): readonly string[] {
  const pieces: string[] = [];
  for (let at = 0; at < text.length; at += PIECE) pieces.push(text.slice(at, at + PIECE));
  return pieces;
}

const histories = new WeakMap<NoteText, { readonly history: History; readonly state: number }>();

function stateOf(
  pieces: readonly string[],
  history: History,
  state: number,
  known: string | null = null,
): WrittenText {
  let all = known;
  const length = pieces.reduce((sum, piece) => sum + piece.length, 0);
  const written: WrittenText = {
    length,
    slice: (start, end) => sliceOf(pieces, start, end),
    whole() {
      all ??= pieces.join('');
      return all;
    },
    changeSince(earlier) {
      const before = histories.get(earlier);
      if (before === undefined || before.history !== history) return null;
      if (before.state < history.first || state < before.state) return null;
      const since = history.changes.slice(before.state - history.first, state - history.first);
      return since.length === 0 ? { start: length, end: length, by: 0 } : since.reduce(together);
    },
    replaced(start, end, by) {
      const { changes } = history;
      // Who goes on from an older state begins another history.
      const own = state === history.first + changes.length ? history : { first: state, changes: [] };
      own.changes.push(trimmed(sliceOf(pieces, start, end), by, start));
      if (own.changes.length > CHANGES) {
        own.changes.shift();
        own.first += 1;
      }
      return stateOf(replacedIn(pieces, start, end, by), own, state + 1);
    },
  };
  histories.set(written, { history, state });
  return written;
}

function sliceOf(pieces: readonly string[], start: number, end: number): string {
  let found = '';
  let at = 0;
  for (const piece of pieces) {
    if (end <= at) break;
    const next = at + piece.length;
    if (start < next) found += piece.slice(Math.max(0, start - at), end - at);
    at = next;
  }
  return found;
}

function replacedIn(pieces: readonly string[], start: number, end: number, by: string): readonly string[] {
  const above: string[] = [];
  const below: string[] = [];
  let [left, right] = ['', ''];
  let at = 0;
  for (const piece of pieces) {
    const next = at + piece.length;
    if (next <= start) above.push(piece);
    else if (end <= at && at !== start) below.push(piece);
    else {
      if (at < start) left = piece.slice(0, start - at);
      if (end < next) right = piece.slice(Math.max(0, end - at));
    }
    at = next;
  }
  const middle = left + by + right;
  // A piece that has grown is cut again, and one that has shrunk is put to the one above.
  if (middle.length < PIECE / 4 && above.length > 0)
    return [...above.slice(0, -1), ...piecesOf(above.at(-1)! + middle), ...below];
  return [...above, ...(middle.length <= 2 * PIECE ? [middle] : piecesOf(middle)), ...below].filter(
    piece => piece !== '',
  );
}

/** A change without what it replaces by the same. */
function trimmed(gone: string, by: string, start: number): Change {
  const { start: from, end } = changeBetween(gone, by);
  return { start: start + from, end: start + end, by: by.length - gone.length };
}

/** Two changes, one after the other, as one. */
function together(first: Change, second: Change): Change {
  const firstEnd = first.end <= second.start ? first.end : Math.max(first.end + second.by, second.end);
  return {
    start: Math.min(first.start, second.start),
    end: Math.max(firstEnd, second.end),
    by: first.by + second.by,
  };
}
