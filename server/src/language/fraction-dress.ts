import { characterAt, emit, emitAt, isDigit, type Scan, skipBlank } from './scan.ts';
import { spanOf, type Token, type TokenKind } from './syntax.ts';
import { letterAt } from './word-lexer.ts';

/**
 * `\frac{a}{b}`, also `\frac12`.
 *
 *     > | \frac{a}{b}
 *         ^^^^^            the outer bracket
 *              ^           the inner one, the numerator's
 */
export function openFraction(scan: Scan, end: number): void {
  const firstToken = scan.tokens.length;
  emit(scan, 'operator', '(', end);
  openPart(scan, 'numerator', firstToken);
}

function openPart(scan: Scan, role: 'numerator' | 'denominator', firstToken: number): void {
  const at = skipBlank(scan, scan.at);
  if (role === 'denominator') emitAt(scan, 'operator', '/', scan.at, scan.at);
  if (characterAt(scan, at) === '{') {
    scan.braces.push({ role, from: at, firstToken });
    emitAt(scan, 'operator', '(', at, at + 1);
    return;
  }
  if (bracketSingle(scan, at)) finishPart(scan, role, firstToken);
}

/** `2` of `\sqrt2`, `1` and `3` of `\frac13`: emits an argument without braces in brackets; false where there is none. */
export function bracketSingle(scan: Scan, at: number): boolean {
  const part = singleToken(scan, at);
  if (part === null) return false;
  emitAt(scan, 'operator', '(', at, at);
  emitAt(scan, part.kind, part.text, at, part.end);
  emitAt(scan, 'operator', ')', part.end, part.end);
  return true;
}

/** A digit or a letter: all that an argument without braces may be. */
function singleToken(scan: Scan, at: number): { kind: TokenKind; text: string; end: number } | null {
  const character = characterAt(scan, at);
  if (isDigit(character)) return { kind: 'number', text: character as string, end: at + 1 };
  const letter = letterAt(scan.text, at, scan.end);
  return letter === null ? null : { kind: 'word', text: letter.letter, end: letter.end };
}

export function finishPart(scan: Scan, role: 'numerator' | 'denominator', firstToken: number): void {
  if (role === 'numerator') openPart(scan, 'denominator', firstToken);
  else finishFraction(scan, firstToken);
}

/** Closes the outer bracket, and writes a fraction of two whole numbers plainly: `(3/8)`, or `2 3/8`. */
function finishFraction(scan: Scan, firstToken: number): void {
  emitAt(scan, 'operator', ')', scan.at, scan.at);
  const parts = scan.tokens.slice(firstToken, firstToken + 10);
  const [outer, , numerator, , slash, , denominator, , close] = parts;
  if (outer === undefined || numerator === undefined || slash === undefined) return;
  if (denominator === undefined || close === undefined || parts.length !== 9) return;
  if (!isWhole(numerator) || !isWhole(denominator) || slash.text !== '/') return;
  const upper = { ...numerator, span: spanOf(outer.span.start, slash.span.start), spaced: true };
  const lower = { ...denominator, span: spanOf(slash.span.end, close.span.end), spaced: false };
  scan.tokens.length = firstToken;
  const before = scan.tokens[firstToken - 1];
  if (before !== undefined && isWhole(before)) {
    scan.tokens.push(upper, slash, lower);
    return;
  }
  const opening = { ...outer, span: spanOf(outer.span.start, numerator.span.start) };
  const closing = { ...close, span: spanOf(denominator.span.end, close.span.end) };
  scan.tokens.push(
    opening,
    { ...numerator, spaced: false },
    slash,
    { ...denominator, spaced: false },
    closing,
  );
}

function isWhole(token: Token): boolean {
  return token.kind === 'number' && /^[0-9]+$/.test(token.text);
}
