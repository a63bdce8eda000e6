import { afterLineBreak, asPrefix, endOfLine } from './fence-lines.ts';
import type { MarkdownPiece, OpenBlock } from './markdown.ts';
import type { FenceMark } from './stretches.ts';
import type { Fence, FenceLine } from './syntax.ts';

/** A part of a note in fewer words: what cannot change how the rest is read is cut out of it. */
export interface Abridged {
  readonly text: string;
  /** Where in the note an offset of the text is; behind a cut, if one is there. */
  readonly placeOf: (offset: number) => number;
  /**
   * The fences whose content was cut out, by where they open in the note. They are cut out on trust: should remark
   * find that one of them is no fence, the whole part must be read.
   */
  readonly emptied: ReadonlyMap<number, EmptiedFence>;
}

export interface EmptiedFence {
  readonly opening: FenceMark;
  readonly closing: FenceMark;
  /** What each line of it begins with. */
  readonly prefix: string;
}

interface Cut {
  readonly start: number;
  readonly end: number;
}

/**
 * Abridges the note from `from` to `end`: of an opening line no more than the first letter of its info string is kept,
 * and nothing of the content of a fence that is plainly closed.
 *
 * Plainly closed is a fence whose next fence mark closes it, where every line begins just as the opening line does
 * or is blank: if a fence opens there at all, these lines are its content. So most pieces of most
 * notes read alike, and remark need be asked but once.
 */
export function abridge(note: string, marks: readonly FenceMark[], from: number, end: number): Abridged {
  const cuts: Cut[] = [];
  const emptied = new Map<number, EmptiedFence>();
  for (let index = 0; index < marks.length; index++) {
    const opening = marks[index]!;
    cuts.push(...infoCut(note, opening));
    const closing = marks[index + 1];
    if (closing !== undefined && isPlainlyClosed(note, opening, closing)) {
      emptied.set(opening.at, { opening, closing, prefix: prefixBeside(note, opening) });
      cuts.push({ start: opening.lineEnd, end: closing.lineStart });
      index++;
    }
  }
  return { ...withoutCuts(note, cuts, from, end), emptied };
}

/** The part of a note as it stands. */
export function unabridged(note: string, from: number, end: number): Abridged {
  return { text: note.slice(from, end), placeOf: offset => offset + from, emptied: new Map() };
}

/**
 * What remark found in an abridged part, with its offsets in the note and what was cut out put back.
 *
 * Null where a fence that was emptied is none.
 */
export function unabridge(note: string, part: Abridged, piece: MarkdownPiece): MarkdownPiece | null {
  const { placeOf } = part;
  let confirmed = 0;
  const restored = (fence: Fence): Fence => {
    const moved = movedFence(note, fence, placeOf);
    const emptied = part.emptied.get(moved.span.start);
    if (emptied === undefined || !fence.closed) {
      return moved;
    }
    confirmed++;
    return { ...moved, lines: emptiedLines(note, emptied) };
  };
  const fences = piece.fences.map(restored);
  if (confirmed < part.emptied.size) {
    return null;
  }
  return {
    fences,
    codeSpans: piece.codeSpans.map(span => ({ text: span.text, start: placeOf(span.start) })),
    comments: piece.comments.map(({ span, depth, prefix }) => {
      const start = placeOf(span.start);
      return { span: { start, end: start + span.end - span.start }, depth, prefix };
    }),
    open: movedOpen(note, piece.open, placeOf),
  };
}

function movedOpen(
  note: string,
  open: OpenBlock | null,
  placeOf: (offset: number) => number,
): OpenBlock | null {
  switch (open?.kind) {
    case 'fence':
      return { kind: 'fence', fence: movedFence(note, open.fence, placeOf) };
    case 'html':
      return { kind: 'html', start: placeOf(open.start) };
    case undefined:
      return null;
  }
}

function movedFence(note: string, fence: Fence, placeOf: (offset: number) => number): Fence {
  const infoStart = placeOf(fence.infoSpan.start);
  const info = note.slice(infoStart, endOfLine(note, infoStart)).trimEnd();
  return {
    ...fence,
    span: { start: placeOf(fence.span.start), end: placeOf(fence.span.end) },
    info,
    infoSpan: { start: infoStart, end: infoStart + info.length },
    lines: fence.lines.map(line => movedLine(note, line, placeOf)),
    closingEnd: fence.closingEnd === null ? null : placeOf(fence.closingEnd),
  };
}

/** A line of content may be an opening line of which the end was cut. */
function movedLine(note: string, line: FenceLine, placeOf: (offset: number) => number): FenceLine {
  const start = placeOf(line.start);
  return { ...line, start, text: note.slice(start, endOfLine(note, start)) };
}

/** All of an info string but its first letter, unless something in it can matter to remark: a backtick, a tag. */
function infoCut(note: string, { at, lineEnd }: FenceMark): Cut[] {
  const lineStop = endOfLine(note, at);
  const line = note.slice(at, Math.min(lineStop, lineEnd));
  const info = /^(?:`+|~+)[ \t]*[\p{L}{](?=[\p{L}\p{M}\p{N} \t{}.#=:_-]*$)/u.exec(line);
  return info === null ? [] : [{ start: at + info[0].length, end: lineStop }];
}

function isPlainlyClosed(note: string, opening: FenceMark, closing: FenceMark): boolean {
  const mark = note[opening.at]!;
  const line = note.slice(closing.at, endOfLine(note, closing.at)).trimEnd();
  const size = (from: number) => {
    let after = from;
    while (note[after] === mark) {
      after++;
    }
    return after - from;
  };
  if (line.length !== size(closing.at) || line.length < size(opening.at)) {
    return false;
  }
  const prefix = prefixBeside(note, opening);
  // Behind a bare quote mark the next blank belongs to the mark, if there is one.
  if (note.slice(closing.lineStart, closing.at) !== prefix || prefix.endsWith('>')) {
    return false;
  }
  for (let start = opening.lineEnd; start < closing.lineStart; ) {
    const stop = endOfLine(note, start);
    if (!note.startsWith(prefix, start) && !isBlankBeside(note.slice(start, stop), prefix)) {
      return false;
    }
    start = afterLineBreak(note, stop);
  }
  return true;
}

/** The lines of a fence that `abridge` emptied. */
function emptiedLines(note: string, { opening, closing, prefix }: EmptiedFence): FenceLine[] {
  const lines: FenceLine[] = [];
  for (let start = opening.lineEnd; start < closing.lineStart; ) {
    const stop = endOfLine(note, start);
    const textStart = Math.min(start + prefix.length, stop);
    lines.push({ text: note.slice(textStart, stop), start: textStart, prefix });
    start = afterLineBreak(note, stop);
  }
  return lines;
}

/** What a line of the fence's content begins with if it is like the opening line. */
function prefixBeside(note: string, { lineStart, at }: FenceMark): string {
  return asPrefix(note.slice(lineStart, at));
}

/** Whether a line is blank in the list or quote whose lines begin with `prefix`: its last blanks may be missing. */
function isBlankBeside(line: string, prefix: string): boolean {
  return prefix.startsWith(line) && prefix.trimEnd().length <= line.length;
}

function withoutCuts(
  note: string,
  cuts: readonly Cut[],
  from: number,
  end: number,
): { text: string; placeOf: (offset: number) => number } {
  const kept: string[] = [];
  /** Where each kept part begins, in the text and in the note. */
  const starts: { inText: number; inNote: number }[] = [];
  let length = 0;
  let at = from;
  for (const cut of [...cuts, { start: end, end }]) {
    starts.push({ inText: length, inNote: at });
    kept.push(note.slice(at, cut.start));
    length += cut.start - at;
    at = cut.end;
  }
  const placeOf = (offset: number) => {
    let low = 0;
    for (let high = starts.length; high - low > 1; ) {
      const middle = (low + high) >> 1;
      if (starts[middle]!.inText <= offset) {
        low = middle;
      } else {
        high = middle;
      }
    }
    const part = starts[low]!;
    return part.inNote + offset - part.inText;
  };
  return { text: kept.join(''), placeOf };
}
