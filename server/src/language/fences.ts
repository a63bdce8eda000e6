import { abridge, unabridge, unabridged } from './abridge.ts';
import { readFenceHeader } from './fence-header.ts';
import { finishFence } from './fence-lines.ts';
import { markdownStart } from './front-matter.ts';
import { endOfHtml } from './html-block.ts';
import { type MarkdownPiece, recallMarkdown } from './markdown.ts';
import type { Problem } from './problem.ts';
import { type ClaimSearch, claimSearch } from './prose-claims.ts';
import { readingEffort } from './reading-effort.ts';
import {
  DEEPEST_NESTING,
  MOST_EFFORT,
  MOST_PROSE,
  tooDeep,
  tooLong,
  tooManySpans,
} from './reading-limits.ts';
import { type FenceMark, type Lay, layOut, type Stretch } from './stretches.ts';
import type { CodeSpan, CommentLine, Fence, NoteStructure } from './syntax.ts';
import { mayHoldComments } from './working-comments.ts';

export const NOTHING: NoteStructure = { fences: [], codeSpans: [] };

/**
 * Finds the measurement blocks of a note, the comment lines of the workings below them, and the code spans of its
 * prose that can be claims about them.
 *
 * remark-parse decides what is a fence and what is a code span, but it sees only the parts of the note that can
 * hold one, or that can leave something open which swallows the next; and of these no content of a fence that is
 * content whatever it says. Every offset counts from the real start of `note`, a byte-order mark and
 * front matter included.
 *
 * Front matter holds no blocks. Where lists and quotes stand too deeply inside each other, or are too long to be
 * read in reasonable time, a problem says so.
 */
export function readNote(note: string): NoteStructure {
  const reading = beginReading(note);
  if (reading === null) {
    return NOTHING;
  }
  readStretches(reading, 0, () => false);
  return structureOf(reading);
}

/** Looks over a note, and is ready to read it; null where it can hold nothing of ours. */
function beginReading(note: string): Reading | null {
  if (!/measurement/i.test(note) && !mayHoldComments(note)) {
    return null;
  }
  // The same text with one kind of line break, every character in its place.
  const plain = note.includes('\r') ? note.replace(/\r\n/g, ' \n').replace(/\r/g, '\n') : note;
  const start = markdownStart(plain);
  const lay = layOut(plain, start);
  if (!lay.stretches.some(stretch => 0 <= stretch.lastBlock)) {
    return null;
  }
  return {
    ...{ note, plain, start, lay, claims: claimSearch(plain, lay), mark: 0, effort: 0, prose: 0 },
    ...{ read: new Map(), fences: [], codeSpans: [], comments: [], problems: [], points: [] },
  };
}

/** Reads from a stretch on, at whose start nothing is open; ends before the stretch that `isKnown` by its start. */
export function readStretches(reading: Reading, first: number, isKnown: (start: number) => boolean): void {
  const { stretches } = reading.lay;
  let from = 0;
  for (let index = first; index < stretches.length; index++) {
    const stretch = stretches[index]!;
    if (from <= stretch.start) {
      from = stretch.start;
      if (isKnown(from)) {
        return;
      }
      const { fences, codeSpans, comments } = reading;
      reading.points.push({
        ...{ at: from, fences: fences.length, codeSpans: codeSpans.length, comments: comments.length },
      });
    }
    while (from < stretch.end && mayMatter(reading, stretch, from)) {
      from = readOpening(reading, from, stretch) ?? readRest(reading, from, stretch);
    }
  }
}

/** What has been read, as far as it concerns us. */
export function structureOf({ fences, codeSpans, comments, problems, claims }: Reading): NoteStructure {
  return {
    fences: fences.filter(fence => readFenceHeader(fence.info, 0).isMeasurement),
    codeSpans: codeSpans.filter(span => claims.mayBe(span.text)),
    ...(comments.length === 0 ? {} : { comments }),
    ...(problems.length === 0 ? {} : { problems }),
  };
}

/** How far the reading of a note has come. */
export interface Reading {
  readonly note: string;
  readonly plain: string;
  /** Where the Markdown begins, below front matter. */
  readonly start: number;
  readonly lay: Lay;
  readonly claims: ClaimSearch;
  readonly fences: Fence[];
  readonly codeSpans: CodeSpan[];
  readonly comments: CommentLine[];
  readonly problems: Problem[];
  /** Where nothing was open, in the order of the note. */
  readonly points: Point[];
  /** The number of the first fence mark that may lie ahead. */
  mark: number;
  effort: number;
  /** How many parts were read for the claims of their prose. */
  prose: number;
  /** What was read of this note: the same text costs but once. */
  readonly read: Map<string, MarkdownPiece>;
}

/** The start of a stretch at which nothing is open, and how much had been found before it. */
export interface Point {
  readonly at: number;
  readonly fences: number;
  readonly codeSpans: number;
  readonly comments: number;
}

function mayMatter({ claims, prose }: Reading, stretch: Stretch, from: number): boolean {
  return (
    from <= stretch.lastBlock ||
    from <= stretch.lastOpening ||
    (prose < MOST_PROSE && claims.mayStandIn(from, stretch.end))
  );
}

/**
 * Reads up to the line of the stretch's next fence mark at the left margin.
 *
 * If a fence is open below it, it is finished, and the offset below it comes back: no line but a closing one matters to an
 * open fence. Else null, and nothing is kept.
 */
function readOpening(reading: Reading, from: number, stretch: Stretch): number | null {
  const opening = nextAtMargin(reading, from, stretch.end);
  if (opening === null || reading.plain[opening.lineEnd - 1] !== '\n') {
    return null;
  }
  const piece = readPart(reading, from, opening.lineEnd, false);
  if (piece === null) {
    return afterLimit(reading, stretch);
  }
  if (piece.open?.kind !== 'fence') {
    return null;
  }
  keep(reading, piece);
  return finishOpen(reading, piece.open.fence, opening.lineEnd);
}

/** Reads the stretch to its end, and through whatever is open there. */
function readRest(reading: Reading, from: number, stretch: Stretch): number {
  const piece = readPart(reading, from, stretch.end, stretch.end === reading.note.length);
  if (piece === null) {
    return afterLimit(reading, stretch);
  }
  keep(reading, piece);
  switch (piece.open?.kind) {
    case 'fence':
      return finishOpen(reading, piece.open.fence, stretch.end);
    case 'html':
      return endOfHtml(reading.plain, piece.open.start, stretch.end);
    case undefined:
      return stretch.end;
  }
}

function nextAtMargin(reading: Reading, from: number, end: number): FenceMark | null {
  const { fenceMarks } = reading.lay;
  for (let index = firstMark(reading, from); index < fenceMarks.length; index++) {
    const mark = fenceMarks[index]!;
    if (end <= mark.at) {
      return null;
    }
    if (mark.at === mark.lineStart) {
      return mark;
    }
  }
  return null;
}

/** The number of the first fence mark at `from` or after it; what is read never lies before what was read. */
function firstMark(reading: Reading, from: number): number {
  const { fenceMarks } = reading.lay;
  while (reading.mark < fenceMarks.length && fenceMarks[reading.mark]!.at < from) {
    reading.mark++;
  }
  return reading.mark;
}

/** Has remark read a part of the note; null where that would be too much, which is then a problem. */
function readPart(reading: Reading, from: number, end: number, last: boolean): MarkdownPiece | null {
  const withSpans = reading.claims.mayStandIn(from, end) && mayHaveSpans(reading, from, end);
  const { fenceMarks } = reading.lay;
  const first = firstMark(reading, from);
  let next = first;
  while (next < fenceMarks.length && fenceMarks[next]!.at < end) {
    next++;
  }
  for (const part of [
    abridge(reading.note, fenceMarks.slice(first, next), from, end),
    unabridged(reading.note, from, end),
  ]) {
    const key = `${last}${withSpans}${part.text}`;
    let piece = reading.read.get(key);
    if (piece === undefined) {
      if (!mayRead(reading, from, end, withSpans)) {
        return null;
      }
      piece = recallMarkdown(part.text, { last, withSpans });
      reading.read.set(key, piece);
    }
    const found = unabridge(reading.note, part, piece);
    if (found !== null) {
      return found;
    }
  }
  return null;
}

/** Whether the prose of a part may be read for its claims; if that is too much, its blocks are read all the same. */
function mayHaveSpans(reading: Reading, from: number, end: number): boolean {
  reading.prose += 1;
  if (MOST_PROSE < reading.prose) {
    return false;
  }
  if (reading.prose === MOST_PROSE) {
    reading.problems.push(tooManySpans(from, reading.note.length));
    return false;
  }
  const { effort } = readingEffort(reading.plain, from, end, true);
  if (reading.effort + effort <= MOST_EFFORT) {
    return true;
  }
  const without = readingEffort(reading.plain, from, end, false).effort;
  if (reading.effort + without <= MOST_EFFORT) {
    reading.problems.push(tooManySpans(from, end));
  }
  return false;
}

/** Whether a part of the note is within the limits; if not, that is a problem. */
function mayRead(reading: Reading, from: number, end: number, withSpans: boolean): boolean {
  const { effort, nesting } = readingEffort(reading.plain, from, end, withSpans);
  reading.effort += effort;
  if (MOST_EFFORT < reading.effort) {
    reading.problems.push(tooLong(from, reading.note.length));
    return false;
  }
  if (DEEPEST_NESTING < nesting) {
    reading.problems.push(tooDeep(from, end));
    return false;
  }
  return true;
}

/** Where to go on after a part that was too much: below a part that is too deep, nowhere once the note is too long. */
function afterLimit(reading: Reading, stretch: Stretch): number {
  return MOST_EFFORT < reading.effort ? reading.note.length : stretch.end;
}

function keep(reading: Reading, piece: MarkdownPiece): void {
  for (const fence of piece.fences) {
    reading.fences.push(fence);
  }
  for (const span of piece.codeSpans) {
    reading.codeSpans.push(span);
  }
  for (const comment of piece.comments) {
    reading.comments.push(comment);
  }
}

/** Finishes a fence that is open at `end`, a line's start; gives where the note goes on. */
function finishOpen(reading: Reading, open: Fence, end: number): number {
  const { fence, after } = finishFence(reading.note, open, end);
  reading.fences.push(fence);
  return after;
}
