import type { Change } from './change-between.ts';
import { type FenceMark, type Lay, layOut } from './stretches.ts';

/** A stretch with places that count from its start, so that it stays as it is wherever it moves. */
export interface LaidPart {
  readonly length: number;
  /** As a stretch has them; -1 where there is none. */
  readonly lastBlock: number;
  readonly lastOpening: number;
  readonly marks: readonly FenceMark[];
}

const NO_MARKS: readonly FenceMark[] = [];

/** The stretches of a text from `start` on. */
export function laidParts(plain: string, start: number): readonly LaidPart[] {
  return partsOf(layOut(plain, start));
}

function partsOf({ stretches, fenceMarks }: Lay): readonly LaidPart[] {
  let mark = 0;
  return stretches.map(({ start, end, lastBlock, lastOpening }) => {
    const marks: FenceMark[] = [];
    for (; mark < fenceMarks.length && fenceMarks[mark]!.at < end; mark++)
      marks.push(movedMark(fenceMarks[mark]!, -start));
    return {
      length: end - start,
      lastBlock: lastBlock < 0 ? -1 : lastBlock - start,
      lastOpening: lastOpening < 0 ? -1 : lastOpening - start,
      marks: marks.length === 0 ? NO_MARKS : marks,
    };
  });
}

/** The lay of some neighbouring parts, the first of which stands at `start`. */
export function layOfParts(parts: readonly LaidPart[], start: number): Lay {
  const fenceMarks: FenceMark[] = [];
  let at = start;
  const stretches = parts.map(part => {
    for (const mark of part.marks) fenceMarks.push(movedMark(mark, at));
    const stretch = {
      start: at,
      end: at + part.length,
      lastBlock: part.lastBlock < 0 ? -1 : part.lastBlock + at,
      lastOpening: part.lastOpening < 0 ? -1 : part.lastOpening + at,
    };
    at = stretch.end;
    return stretch;
  });
  return { stretches, fenceMarks };
}

function movedMark({ lineStart, at, lineEnd }: FenceMark, by: number): FenceMark {
  return { lineStart: lineStart + by, at: at + by, lineEnd: lineEnd + by };
}

/** What an edit makes of the parts: those from `from` to `to` have given way to `laid`. */
export interface PartsChange {
  readonly from: number;
  readonly to: number;
  readonly laid: readonly LaidPart[];
}

/**
 * Lays the parts of an edited text out again, from part `from` on, which stands before the edit at `start`, up to the
 * first one behind it that begins where one began before.
 *
 * Whether a line begins a stretch is told by what stands above it; the rest of the stretch by itself. `plainSlice` gives
 * pieces of the new text, which is `length` long.
 */
export function laidAgain(
  { length, plainSlice }: { readonly length: number; plainSlice(start: number, end: number): string },
  before: readonly LaidPart[],
  { from, start }: { readonly from: number; readonly start: number },
  change: Change,
): PartsChange {
  let to = from;
  let at = start;
  const pass = (): void => {
    at += before[to]!.length;
    to += 1;
  };
  while (to < before.length && at < change.end - change.by) pass();
  // Every time that it did not come out even, the next try goes further.
  for (let more = 1; to < before.length; more *= 8) {
    const next = at + change.by;
    const laid = laidParts(plainSlice(start, next + before[to]!.length), 0);
    let [above, end] = [0, start];
    while (above < laid.length && end < next) {
      end += laid[above]!.length;
      above += 1;
    }
    if (end === next && above < laid.length) return { from, to, laid: laid.slice(0, above) };
    for (let passed = 0; passed < more && to < before.length; passed++) pass();
  }
  return { from, to, laid: laidParts(plainSlice(start, length), 0) };
}
