import { type LineIndex, lineBounds, placeAt } from '../checks/line-index.ts';
import type { Span } from '../language/syntax.ts';
import { type DisplayWidth, graphemes } from './display-width.ts';
import { escapeControlsAt } from './escape-controls.ts';

/** A line of a note as a terminal shows it, and the carets that go below its faulty part. */
export interface CodeFrame {
  readonly line: string;
  readonly carets: string;
  /** The last line of a fault that runs on over lines; null where it ends on its own. */
  readonly runsOnTo: number | null;
}

/** One thing that the eye sees as one: a letter with its accents, a sign two columns wide, a tab. */
interface Cell {
  readonly shown: string;
  readonly column: number;
  readonly width: number;
}

/** A piece of a line laid out in columns, and the columns between which the faulty part stands. */
interface Strip {
  readonly cells: readonly Cell[];
  readonly width: number;
  readonly markFrom: number;
  readonly markTo: number;
}

const TAB_STOP = 4;
const ELLIPSIS = '…';
/** How many columns behind the fault stay visible when a long line is cut. */
const AFTERGLOW = 8;

/**
 * Draws the line where a fault begins, with carets below the faulty part, in at most `room` columns.
 * Tabs, wide and combining characters are counted as they are shown; of a long line the part
 * around the fault is kept and an ellipsis stands for the rest.
 */
export function codeFrame(index: LineIndex, span: Span, room: number, displayWidth: DisplayWidth): CodeFrame {
  const first = placeAt(index, span.start).line;
  const last = placeAt(index, Math.max(span.start, span.end - 1)).line;
  const bounds = lineBounds(index, first);
  // A hostile line may be a megabyte long: no more is looked at than can be shown.
  const from = Math.max(bounds.start, span.start - 2 * room);
  const to = Math.min(bounds.end, span.start + 2 * room);
  const strip = laidOut(index.text.slice(from, to), span.start - from, span.end - from, displayWidth);
  const fitting = fitted(strip, room, from > bounds.start, to < bounds.end);
  return { ...fitting, runsOnTo: last > first ? last : null };
}

/** Lays a line out in columns; `start` and `end` are the offsets of its faulty part. */
function laidOut(text: string, start: number, end: number, displayWidth: DisplayWidth): Strip {
  const cells: Cell[] = [];
  let column = 0;
  let at = 0;
  let markFrom: number | null = null;
  let markTo = 0;
  for (const piece of graphemes(text)) {
    const shown =
      piece === '\t' ? ' '.repeat(TAB_STOP - (column % TAB_STOP)) : escapeControlsAt(text, at, piece);
    const width = displayWidth(shown);
    const next = at + piece.length;
    if (markFrom === null && start < next) markFrom = column;
    if (at < end) markTo = column + width;
    cells.push({ shown, column, width });
    column += width;
    at = next;
  }
  return { cells, width: column, markFrom: markFrom ?? column, markTo };
}

/** Cuts what has no room; an empty fault, or one at the line's very end, still gets its caret. */
function fitted(
  strip: Strip,
  room: number,
  cutBefore: boolean,
  cutAfter: boolean,
): { readonly line: string; readonly carets: string } {
  const whole = strip.width <= room && !cutBefore && !cutAfter;
  const inner = room - 2 * ELLIPSIS.length;
  const start = whole ? 0 : Math.max(0, Math.min(strip.markFrom, strip.markTo + AFTERGLOW - inner));
  const end = whole ? strip.width : start + inner;
  const shown = strip.cells.filter(cell => start <= cell.column && cell.column + cell.width <= end);
  const last = shown.at(-1);
  const before = cutBefore || start > 0 ? ELLIPSIS : '';
  const after = cutAfter || (last !== undefined && last !== strip.cells.at(-1)) ? ELLIPSIS : '';
  const shift = before.length - (shown[0]?.column ?? start);
  const carets = Math.max(1, Math.min(strip.markTo, end) - strip.markFrom);
  return {
    line: before + shown.map(cell => cell.shown).join('') + after,
    carets: ' '.repeat(strip.markFrom + shift) + '^'.repeat(carets),
  };
}
