import type { Problem } from './problem.ts';

/** Two offsets into the note, in UTF-16 units; `end` is the first one after the text. */
export interface Span {
  readonly start: number;
  readonly end: number;
}

export function spanOf(start: number, end: number): Span {
  return { start, end };
}

export function joinSpans(a: Span, b: Span): Span {
  return { start: Math.min(a.start, b.start), end: Math.max(a.end, b.end) };
}

/** One line of a fence's content: `note.slice(start, start + text.length) === text`, line end not included. */
export interface FenceLine {
  readonly text: string;
  readonly start: number;
  /** What a new line below this one must begin with: list indentation and quote marks, as typed. */
  readonly prefix: string;
}

/** A fenced code block of the note whose info string makes it a measurement block. */
export interface Fence {
  /** From the first fence character to the end of the closing fence's line (or of the last line when unclosed). */
  readonly span: Span;
  /** The info string's own text, where it stands. */
  readonly info: string;
  readonly infoSpan: Span;
  readonly lines: readonly FenceLine[];
  readonly closed: boolean;
  /** Where the closing fence's line ends (without its line break); null when unclosed. */
  readonly closingEnd: number | null;
  /** Prefix of lines beside the fence (quote marks, list indentation), for text inserted below it. */
  readonly prefix: string;
}

/** An inline code span of the prose: `text` is what stands between the backticks, at `start`. */
export interface CodeSpan {
  readonly text: string;
  readonly start: number;
}

/** A comment line of a note that begins or ends a working or a figure, `<!-- working: axle-sleeve 3f2a9c -->`. */
export interface CommentLine {
  readonly span: Span;
  /** How many lists' items and quotes it stands in. */
  readonly depth: number;
  /** What a new line below it must begin with: list indentation and quote marks. */
  readonly prefix: string;
}

/** What the Markdown of a note holds for us, in the order of the note. */
export interface NoteStructure {
  readonly fences: readonly Fence[];
  readonly codeSpans: readonly CodeSpan[];
  /** The comment lines of workings and figures; left out where the note has none. */
  readonly comments?: readonly CommentLine[];
  /** Parts of the note that were too much to look for blocks in (rule `limit`). */
  readonly problems?: readonly Problem[];
}

export type TokenKind =
  | 'number' // text normalised to digits with a point: '.5' -> '0.5', '1 195 635' -> '1195635'
  | 'word' // letters (Greek and LaTeX commands spelt out as letters), digits and subscripts after them: 'D', 'rho', 't1', 'm_0'
  | 'operator' // + - * / ^ ( ) | , = ≈ : ; ± ? # and anything else that is one character
  | 'prime' // ′ or ″ (also ' and " after a number)
  | 'degree' // °
  | 'percent' // %
  | 'superscript'; // '²' -> '2', '⁻²' -> '-2': an exponent

/** A piece of a line. Math and Markdown dress (`$`, `\text{}`, `**`, `\,`) makes no tokens. */
export interface Token {
  readonly kind: TokenKind;
  readonly text: string;
  readonly span: Span;
  /** White space (or dress standing for it) before this token. */
  readonly spaced: boolean;
}
