import { readFenceHeader } from './fence-header.ts';
import { finishFence } from './fence-lines.ts';
import { markdownStart } from './front-matter.ts';
import { endOfHtml } from './html-block.ts';
import { type MarkdownPiece, readMarkdown } from './markdown.ts';
import type { Problem } from './problem.ts';
import { type ClaimSearch, claimSearch } from './prose-claims.ts';
import { readingEffort } from './reading-effort.ts';
import { type FenceMark, type Lay, layOut, type Stretch } from './stretches.ts';
import type { CodeSpan, Fence, NoteStructure } from './syntax.ts';

/** The pieces of Markdown that the last reading of a note needed, by their text, so that the next one is quick. */
export interface NoteMemory {
  pieces: ReadonlyMap<string, MarkdownPiece>;
}

/** How many quotes and lists may begin on one line. */
export const DEEPEST_NESTING = 64;

/** What reading one note may cost, as `readingEffort` counts it: a megabyte of ordinary Markdown is some two million. */
export const MOST_EFFORT = 8_000_000;

const NOTHING: NoteStructure = { fences: [], codeSpans: [] };

/**
 * Finds the measurement blocks of a note, and the code spans of its prose that can be claims about them.
 *
 * remark-parse decides what is a fence and what is a code span, but it sees only the parts of the note that can
 * hold one, or that can leave something open which swallows the next; of a fence at the left margin it sees how it opens.
 * Every offset counts from the real start of `note`, a byte-order mark and front matter
 * included. `memory` takes over what did not change since it was last used, and alters no result.
 *
 * Front matter holds no blocks. Where lists and quotes stand too deeply inside each other, or are too long to be
 * read in reasonable time, a problem says so.
 */
export function readNote(note: string, memory?: NoteMemory): NoteStructure {
  if (!/measurement/i.test(note)) {
    return NOTHING;
  }
  // The same text with one kind of line break, every character in its place.
  const plain = note.includes('\r') ? note.replace(/\r\n/g, ' \n').replace(/\r/g, '\n') : note;
  const start = markdownStart(plain);
  const lay = layOut(plain, start);
  if (!lay.stretches.some(stretch => 0 <= stretch.lastBlock)) {
    return NOTHING;
  }
  const reading: Reading = {
    ...{ note, plain, lay, claims: claimSearch(plain, lay), mark: 0, effort: 0 },
    ...{ fences: [], codeSpans: [], problems: [], memory, pieces: new Map() },
  };
  let from = start;
  for (const stretch of lay.stretches) {
    from = Math.max(from, stretch.start);
    while (from < stretch.end && mayMatter(reading, stretch, from)) {
      from = readOpening(reading, from, stretch) ?? readRest(reading, from, stretch);
    }
  }
  if (memory !== undefined) {
    memory.pieces = reading.pieces;
  }
  return {
    fences: reading.fences.filter(fence => readFenceHeader(fence.info, 0).isMeasurement),
    codeSpans: reading.codeSpans.filter(span => reading.claims.mayBe(span.text)),
    ...(reading.problems.length === 0 ? {} : { problems: reading.problems }),
  };
}

/** How far the reading of a note has come. */
interface Reading {
  readonly note: string;
  readonly plain: string;
  readonly lay: Lay;
  readonly claims: ClaimSearch;
  readonly fences: Fence[];
  readonly codeSpans: CodeSpan[];
  readonly problems: Problem[];
  readonly memory: NoteMemory | undefined;
  /** What was read of this note, by its text. */
  readonly pieces: Map<string, MarkdownPiece>;
  /** The number of the first fence mark that may lie ahead. */
  mark: number;
  effort: number;
}

function mayMatter({ claims }: Reading, stretch: Stretch, from: number): boolean {
  return from <= stretch.lastBlock || from <= stretch.lastOpening || claims.mayStandIn(from, stretch.end);
}

/**
 * Reads up to the line with the stretch's next fence mark at the left margin.
 *
 * If a fence opens there it is finished, and the offset below it comes back: no line but a closing one matters to an
 * open fence. Else null, and nothing is kept.
 */
function readOpening(reading: Reading, from: number, stretch: Stretch): number | null {
  const opening = nextOutside(reading, from, stretch.end);
  if (opening === null || reading.plain[opening.lineEnd - 1] !== '\n') {
    return null;
  }
  const piece = readPiece(reading, from, opening.lineEnd, false);
  if (piece === null) {
    return afterLimit(reading, stretch);
  }
  if (piece.open?.kind !== 'fence' || piece.open.fence.span.start !== opening.at - from) {
    return null;
  }
  keep(reading, piece, from);
  return finishOpen(reading, piece.open.fence, from, opening.lineEnd);
}

/** Reads the stretch to its end, and through whatever is open there. */
function readRest(reading: Reading, from: number, stretch: Stretch): number {
  const piece = readPiece(reading, from, stretch.end, stretch.end === reading.note.length);
  if (piece === null) {
    return afterLimit(reading, stretch);
  }
  keep(reading, piece, from);
  switch (piece.open?.kind) {
    case 'fence':
      return finishOpen(reading, piece.open.fence, from, stretch.end);
    case 'html':
      return endOfHtml(reading.plain, from + piece.open.start, stretch.end);
    case undefined:
      return stretch.end;
  }
}

function nextOutside(reading: Reading, from: number, end: number): FenceMark | null {
  const { fenceMarks } = reading.lay;
  for (; reading.mark < fenceMarks.length; reading.mark++) {
    const mark = fenceMarks[reading.mark]!;
    if (from <= mark.at && mark.outside) {
      return mark.at < end ? mark : null;
    }
  }
  return null;
}

/** Has remark read a part of the note; null where that would be too much, which is then a problem. */
function readPiece(reading: Reading, from: number, end: number, last: boolean): MarkdownPiece | null {
  const withSpans = reading.claims.mayStandIn(from, end);
  const text = reading.note.slice(from, end);
  const key = `${last ? 1 : 0}${withSpans ? 1 : 0}${text}`;
  const known = reading.pieces.get(key);
  if (known !== undefined) {
    return known;
  }
  const { effort, nesting } = readingEffort(reading.plain, from, end, withSpans);
  reading.effort += effort;
  if (MOST_EFFORT < reading.effort) {
    reading.problems.push(tooLong(from, reading.note.length));
    return null;
  }
  if (DEEPEST_NESTING < nesting) {
    reading.problems.push(tooDeep(from, end));
    return null;
  }
  const piece = reading.memory?.pieces.get(key) ?? readMarkdown(text, { last, withSpans });
  reading.pieces.set(key, piece);
  return piece;
}

/** Where to go on after a part that was too much: below a part that is too deep, nowhere once the note is too long. */
function afterLimit(reading: Reading, stretch: Stretch): number {
  return MOST_EFFORT < reading.effort ? reading.note.length : stretch.end;
}

function keep(reading: Reading, piece: MarkdownPiece, from: number): void {
  for (const fence of piece.fences) {
    reading.fences.push(shifted(fence, from));
  }
  for (const span of piece.codeSpans) {
    reading.codeSpans.push({ text: span.text, start: span.start + from });
  }
}

/** Finishes a fence that is open at `end`, a line's start; gives where the note goes on. */
function finishOpen(reading: Reading, open: Fence, from: number, end: number): number {
  const { fence, after } = finishFence(reading.note, shifted(open, from), end);
  reading.fences.push(fence);
  return after;
}

function shifted(fence: Fence, by: number): Fence {
  return {
    ...fence,
    span: { start: fence.span.start + by, end: fence.span.end + by },
    infoSpan: { start: fence.infoSpan.start + by, end: fence.infoSpan.end + by },
    lines: fence.lines.map(line => ({ ...line, start: line.start + by })),
    closingEnd: fence.closingEnd === null ? null : fence.closingEnd + by,
  };
}

function tooDeep(start: number, end: number): Problem {
  return {
    rule: 'limit',
    span: { start, end },
    message:
      `more than ${DEEPEST_NESTING} quotes and lists stand inside each other here, too many to look for blocks in ` +
      'them, so a block belongs further out',
    fixes: [],
  };
}

function tooLong(start: number, end: number): Problem {
  return {
    rule: 'limit',
    span: { start, end },
    message:
      'the lists and quotes of this note are too long to look for blocks in them, and none is read from here on, ' +
      'so divide them by an empty line and a paragraph, or divide the note',
    fixes: [],
  };
}
