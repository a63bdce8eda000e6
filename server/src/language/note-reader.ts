import { changeBetween } from './change-between.ts';
import { beginReading, NOTHING, type Point, type Reading, readStretches, structureOf } from './fences.ts';
import { MOST_EFFORT, MOST_PROSE } from './reading-limits.ts';
import type { CodeSpan, CommentLine, Fence, NoteStructure, Span } from './syntax.ts';

/**
 * Reads a note again and again while it is being written: each time only what an edit concerns, and `readNote` of the
 * rest as before.
 *
 * An edit concerns the stretch before it as well, and every stretch up to the first one at whose start nothing was
 * open before and nothing is open now.
 */
export function noteReader(): (note: string) => NoteStructure {
  let before: Reading | null = null;
  return note => {
    const reading = beginReading(note);
    if (reading !== null && !(before !== null && goOn(reading, before)))
      readStretches(reading, 0, () => false);
    before = reading;
    return reading === null ? NOTHING : structureOf(reading);
  };
}

/** Reads what has changed since before, and takes the rest over; false where the whole note has to be read. */
function goOn(reading: Reading, before: Reading): boolean {
  if (!mayGoOn(reading, before)) return false;
  const change = changeBetween(before.note, reading.note);
  const stretch = stretchBefore(reading, before, change.start);
  if (stretch === null) return false;
  const first = before.points.findIndex(({ at }) => at === stretch.start);
  takeOver(reading, before, { from: 0, to: first }, 0);
  reading.effort = before.effort;
  reading.prose = before.prose;
  const known = new Map(before.points.map((point, index) => [point.at, index]));
  let end: number | null = null;
  readStretches(reading, stretch.index, start => {
    const index = change.end <= start ? known.get(start - change.by) : undefined;
    if (index === undefined) return false;
    end = index;
    return true;
  });
  if (reading.problems.length > 0) {
    forget(reading);
    return false;
  }
  if (end !== null) takeOver(reading, before, { from: end, to: before.points.length }, change.by);
  return true;
}

/** Whether what was read before can stand: far from every limit. */
function mayGoOn(reading: Reading, before: Reading): boolean {
  return (
    before.problems.length === 0 &&
    before.effort < MOST_EFFORT / 2 &&
    before.prose < MOST_PROSE / 2 &&
    reading.start === before.start
  );
}

/** The stretch to begin with: the last but one that begins before a change, and at which nothing was open. */
function stretchBefore(
  reading: Reading,
  before: Reading,
  start: number,
): { readonly index: number; readonly start: number } | null {
  const last = before.points.findLastIndex(({ at }) => at < start);
  const point = before.points[last - 1];
  if (point === undefined) return null;
  const index = reading.lay.stretches.findIndex(stretch => stretch.start === point.at);
  return index < 0 ? null : { index, start: point.at };
}

/** Takes over what was found between two points, moved by as much as the text has moved. */
function takeOver(
  reading: Reading,
  before: Reading,
  points: { readonly from: number; readonly to: number },
  by: number,
): void {
  const none: Point = { at: 0, fences: 0, codeSpans: 0, comments: 0 };
  const all: Point = {
    at: before.note.length,
    fences: before.fences.length,
    codeSpans: before.codeSpans.length,
    comments: before.comments.length,
  };
  const start = before.points[points.from] ?? none;
  const end = before.points[points.to] ?? all;
  const offset = {
    fences: reading.fences.length - start.fences,
    codeSpans: reading.codeSpans.length - start.codeSpans,
    comments: reading.comments.length - start.comments,
  };
  for (const point of before.points.slice(points.from, points.to)) {
    reading.points.push({
      at: point.at + by,
      fences: point.fences + offset.fences,
      codeSpans: point.codeSpans + offset.codeSpans,
      comments: point.comments + offset.comments,
    });
  }
  for (const fence of before.fences.slice(start.fences, end.fences))
    reading.fences.push(movedFence(fence, by, reading.note));
  for (const span of before.codeSpans.slice(start.codeSpans, end.codeSpans)) {
    reading.codeSpans.push(movedCodeSpan(span, by, reading.note));
  }
  for (const comment of before.comments.slice(start.comments, end.comments)) {
    reading.comments.push(movedComment(comment, by));
  }
}

function forget(reading: Reading): void {
  for (const found of [
    reading.fences,
    reading.codeSpans,
    reading.comments,
    reading.problems,
    reading.points,
  ]) {
    found.length = 0;
  }
  reading.mark = 0;
  reading.effort = 0;
  reading.prose = 0;
}

function moved({ start, end }: Span, by: number): Span {
  return { start: start + by, end: end + by };
}

/** The same fence at its new place. Its texts are cut from the new note, for a cut keeps the whole note in memory. */
function movedFence(fence: Fence, by: number, note: string): Fence {
  const infoSpan = moved(fence.infoSpan, by);
  return {
    ...fence,
    span: moved(fence.span, by),
    info: note.slice(infoSpan.start, infoSpan.end),
    infoSpan,
    lines: fence.lines.map(({ text, start, prefix }) => ({
      text: note.slice(start + by, start + by + text.length),
      start: start + by,
      prefix,
    })),
    closingEnd: fence.closingEnd === null ? null : fence.closingEnd + by,
  };
}

function movedCodeSpan({ text, start }: CodeSpan, by: number, note: string): CodeSpan {
  return { text: note.slice(start + by, start + by + text.length), start: start + by };
}

function movedComment(comment: CommentLine, by: number): CommentLine {
  return { ...comment, span: moved(comment.span, by) };
}
