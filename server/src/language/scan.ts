import { spanOf, type Token, type TokenKind } from './syntax.ts';

/** A brace that stands open: what its closing means, and where its content began. */
export interface OpenBrace {
  readonly role: 'plain' | 'argument' | 'numerator' | 'denominator';
  /** Where the command or the brace itself begins in the text. */
  readonly from: number;
  /** The first token inside, or for a fraction the token of its outer bracket. */
  readonly firstToken: number;
}

/** Where the lexer is in a line: the only thing in it that changes. */
export interface Scan {
  readonly text: string;
  /** The offset of `text` in the note. */
  readonly offset: number;
  /** Where the statement ends and its comment begins. */
  readonly end: number;
  readonly tokens: Token[];
  readonly braces: OpenBrace[];
  at: number;
  spaced: boolean;
  /** Where dress that belongs to the next token began (`\left` before a bracket). */
  dressFrom: number | null;
}

/** Adds what stands between the place reached and `end` as one token, and moves on. */
export function emit(scan: Scan, kind: TokenKind, text: string, end: number): void {
  emitAt(scan, kind, text, scan.dressFrom ?? scan.at, end);
}

/** Adds a token for the text from `from` to `end`, and moves on. */
export function emitAt(scan: Scan, kind: TokenKind, text: string, from: number, end: number): void {
  const span = spanOf(scan.offset + from, scan.offset + end);
  scan.tokens.push({ kind, text, span, spaced: scan.spaced });
  scan.at = end;
  scan.spaced = false;
  scan.dressFrom = null;
}

export function isDigit(character: string | undefined): boolean {
  return character !== undefined && '0' <= character && character <= '9';
}

const BLANK = /^\s$/;
/** Zero-width and direction marks, as pasted from web pages: they separate nothing. */
const INVISIBLE = /^(?:[\u00AD\u200B-\u200F\u202A-\u202E\u2060-\u2064\u2066-\u2069\uFEFF]|\uFE0E|\uFE0F)$/;

export function isBlank(character: string | undefined): boolean {
  if (character === ' ' || character === '\t') return true;
  // Nearly all that people type is plain letters, digits and signs.
  if (character === undefined || (character > ' ' && character < '\u007F')) return false;
  return BLANK.test(character) && character !== '\uFEFF';
}

export function isInvisible(character: string | undefined): boolean {
  return character !== undefined && character > '\u007F' && INVISIBLE.test(character);
}

/** The first place from `at` on that is not white space. */
export function skipBlank(scan: Scan, at: number): number {
  let next = at;
  while (next < scan.end && isBlank(scan.text[next])) next += 1;
  return next;
}

/** Like `slice`, but never past the statement's end. */
export function characterAt(scan: Scan, at: number): string | undefined {
  return at < scan.end ? scan.text[at] : undefined;
}
