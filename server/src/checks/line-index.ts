/** Where the lines of a note begin, so that a place can be told as an editor tells it. */
export interface LineIndex {
  readonly text: string;
  /** Offsets of the lines' first characters; a byte-order mark stands before the first line. */
  readonly starts: readonly number[];
}

/** A place in a note as editors count it: both from 1, the column in UTF-16 units. */
export interface Place {
  readonly line: number;
  readonly column: number;
}

const LF = 10;
const CR = 13;
const BYTE_ORDER_MARK = 0xfeff;

/** Finds the lines of a note; CR, LF and CRLF end one, as in Markdown. */
export function lineIndex(text: string): LineIndex {
  const starts = [text.charCodeAt(0) === BYTE_ORDER_MARK ? 1 : 0];
  for (let at = 0; at < text.length; at++) {
    const unit = text.charCodeAt(at);
    if (unit === LF || (unit === CR && text.charCodeAt(at + 1) !== LF)) starts.push(at + 1);
  }
  return { text, starts };
}

/** The line and column of an offset; one outside the note counts as the nearest end. */
export function placeAt(index: LineIndex, offset: number): Place {
  const { text, starts } = index;
  const at = Math.min(Math.max(offset, starts[0] ?? 0), text.length);
  let low = 0;
  let high = starts.length;
  while (low + 1 < high) {
    const middle = (low + high) >> 1;
    if ((starts[middle] ?? 0) <= at) low = middle;
    else high = middle;
  }
  return { line: low + 1, column: at - (starts[low] ?? 0) + 1 };
}

/** The two offsets between which a line's own text stands, its line end left out. */
export function lineBounds(index: LineIndex, line: number): { readonly start: number; readonly end: number } {
  const { text, starts } = index;
  const start = starts[line - 1] ?? text.length;
  let end = starts[line] ?? text.length;
  if (start < end && text.charCodeAt(end - 1) === LF) end--;
  if (start < end && text.charCodeAt(end - 1) === CR) end--;
  return { start, end };
}
