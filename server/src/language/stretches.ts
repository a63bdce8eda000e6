import { readFenceHeader } from './fence-header.ts';
import { isCommentLine } from './working-comments.ts';

/**
 * A part of a note that begins with a line at the left margin below a blank line, and ends where the next one
 * begins. No list, quote, indented code or paragraph reaches from one into the next; only a fence or an
 * HTML block at the left margin does.
 */
export interface Stretch {
  readonly start: number;
  readonly end: number;
  /** Where the last line begins that can open a measurement block, or a working or figure below one; -1 where none can. */
  readonly lastBlock: number;
  /** Where the last line begins that can open a fence or an HTML block which goes on into the next stretch; or -1. */
  readonly lastOpening: number;
}

/** A line that looks as if it opened or closed a fence. */
export interface FenceMark {
  readonly lineStart: number;
  /** Where its backticks or tildes begin. */
  readonly at: number;
  /** Where the next line begins. */
  readonly lineEnd: number;
}

/** A note as its lines show it, before anybody has decided what is a fence. */
export interface Lay {
  readonly stretches: readonly Stretch[];
  readonly fenceMarks: readonly FenceMark[];
}

/** With these a list or a quote begins. For remark, indented code above it still counts, over any blank lines. */
const MARKS = '>*+-0123456789';

type Growing = { -readonly [key in keyof Stretch]: Stretch[key] };

/**
 * Looks over the lines of a note from `from` on: where it can be cut, and which parts can hold a block.
 *
 * Whatever a line can be, it counts as being; remark decides later. `plain` has no line breaks but `\n`.
 * Every character is looked at a fixed number of times.
 */
export function layOut(plain: string, from: number): Lay {
  const stretches: Growing[] = [];
  const fenceMarks: FenceMark[] = [];
  let current: Growing | null = null;
  let belowBlank = true;
  let belowIndented = false;
  for (let start = from; start < plain.length; ) {
    const newline = plain.indexOf('\n', start);
    const end = newline < 0 ? plain.length : newline;
    const next = newline < 0 ? end : end + 1;
    const { at, indented } = skipMarks(plain, start, end);
    const margin = indented === start && start < end && !(belowIndented && MARKS.includes(plain[start]!));
    if (current === null || (belowBlank && margin)) {
      current = { start, end, lastBlock: -1, lastOpening: -1 };
      stretches.push(current);
    }
    current.end = next;
    belowBlank = indented === end;
    if (!belowBlank) {
      belowIndented = 4 <= indented - start || plain.slice(start, indented).includes('\t');
    }
    if (at < end) {
      const outside = at === indented && at - start <= 3 && !plain.slice(start, at).includes('\t');
      if (plain[at] === '<') {
        if (isCommentLine(plain, at, end)) {
          current.lastBlock = at;
        }
        if (outside && opensHtml(plain, at, end)) {
          current.lastOpening = at;
        }
      } else if (isFenceMark(plain, at)) {
        fenceMarks.push({ lineStart: start, at, lineEnd: next });
        if (outside) {
          current.lastOpening = at;
        }
        if (opensBlock(plain.slice(at, end))) {
          current.lastBlock = at;
        }
      }
    }
    start = next;
  }
  return { stretches, fenceMarks };
}

/** Passes over the blanks, quote marks, bullets and item numbers that a line begins with. */
export function skipMarks(
  plain: string,
  start: number,
  end: number,
): { readonly at: number; readonly marks: number; readonly indented: number } {
  let at = start;
  while (at < end && isBlank(plain.charCodeAt(at))) {
    at++;
  }
  const indented = at;
  let marks = 0;
  for (; at < end; at++) {
    const code = plain.charCodeAt(at);
    if (code === 62 /* > */) {
      marks++;
    } else if (41 <= code && code <= 46 && code !== 44 /* ) * + - . */) {
      marks += at + 1 === end || isBlank(plain.charCodeAt(at + 1)) ? 1 : 0;
    } else if (!isBlank(code) && !(48 <= code && code <= 57)) {
      break;
    }
  }
  return { at, marks, indented };
}

function isBlank(code: number): boolean {
  return code === 32 || code === 9;
}

function isFenceMark(plain: string, at: number): boolean {
  const mark = plain[at];
  return (mark === '`' || mark === '~') && plain[at + 1] === mark && plain[at + 2] === mark;
}

function opensBlock(line: string): boolean {
  return readFenceHeader(line.replace(/^(?:`+|~+)/, '').trim(), 0).isMeasurement;
}

/** Whether a line can open an HTML block that goes on over blank lines (CommonMark 0.31, 4.6, kinds 1 to 5). */
function opensHtml(plain: string, at: number, end: number): boolean {
  return plain.startsWith('<!--', at)
    ? !plain.slice(at + 4, end).includes('-->')
    : /^<(?:[!?]|pre|script|style|textarea)/i.test(plain.slice(at, at + 9));
}
