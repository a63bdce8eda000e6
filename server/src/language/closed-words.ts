import { unitWord } from '../engine/unit.ts';
import { BEHIND_LINE, closedForms } from './closed-grammar.ts';
import type { Token } from './syntax.ts';

/** The scale whose zero, line or side a part of the statement speaks of. */
export type ClosedScale = 'vernier' | 'circular' | 'linear' | 'arc';

/** A part of what is said about the closed instrument. `on` is null where its words name no scale. */
export type ClosedPart =
  | { readonly kind: 'zeros coincide' }
  /** `vernier zero`, `zero of the circular scale`, `zero` */
  | { readonly kind: 'zero'; readonly on: ClosedScale | null }
  /** `right of the main zero`, `above the line`, `hidden`, `off the arc` */
  | {
      readonly kind: 'side';
      readonly on: ClosedScale;
      readonly side: 'positive' | 'negative' | 'nearest';
    }
  /** `division 47`, `16th line`, `between 4 and 5`: what stands in line */
  | { readonly kind: 'line'; readonly on: ClosedScale | null; readonly numbers: readonly Digits[] }
  /** `3 divisions`, `by 3 divisions`: so many from zero */
  | { readonly kind: 'count'; readonly number: Digits }
  /** `4′`, `by 0.4 mm` */
  | { readonly kind: 'size'; readonly number: Digits }
  /** `from the far end` */
  | { readonly kind: 'far end' };

/** A number as typed, with its unit where it has one. */
export type Digits = readonly Token[];

/** The statement taken apart; where a word or a number fits nowhere, what was read before it and the rest of its part. */
export interface ClosedWords {
  readonly parts: readonly ClosedPart[];
  readonly unread: readonly Token[];
}

/**
 * Takes what is said about the closed instrument apart, every word and number of it.
 *
 *     vernier zero left of the main zero, division 4 from the far end
 *     ^^^^^^^^^^^^ ^^^^^^^^^^^^^^^^^^^^^^  ^^^^^^^^^^ ^^^^^^^^^^^^^^^^
 *     zero         side                   line       far end
 */
export function closedWords(tokens: readonly Token[]): ClosedWords {
  const { text, pieces } = plainText(tokens);
  const usual = usualParts(text, pieces);
  if (usual !== null) return { parts: usual, unread: [] };
  const parts: ClosedPart[] = [];
  let at = 0;
  while (at < text.length) {
    const between = matchAt(BETWEEN, text, at);
    if (between !== null) {
      at += between[0].length;
      continue;
    }
    const found = partAt(text, at, pieces);
    if (found === null) return { parts, unread: restOf(text, at, pieces, tokens) };
    parts.push(found.part);
    at += found.length;
  }
  return { parts, unread: [] };
}

const USUAL =
  /^(?:(?<vernier>vernier) zero (?<way>right|left)|circular zero (?<place>above|below) the line) , division [#01]$/;

/** What most people write, just as the forms below would read it: `vernier zero right, division 3`. */
function usualParts(text: string, pieces: readonly Piece[]): readonly ClosedPart[] | null {
  if (text === 'zeros coincide') return [{ kind: 'zeros coincide' }];
  const said = USUAL.exec(text)?.groups;
  if (said === undefined) return null;
  const on = said.vernier === undefined ? 'circular' : 'vernier';
  const side = said.way === 'right' || said.place === 'below' ? 'positive' : 'negative';
  const number = pieces[pieces.length - 1]!.tokens;
  return [
    { kind: 'zero', on },
    { kind: 'side', on, side },
    { kind: 'line', on: null, numbers: [number] },
  ];
}

/** A word, a sign, or a number with what measures it, at its place in the plain text. */
interface Piece {
  readonly at: number;
  readonly tokens: readonly Token[];
}

/** The words in small letters with one space between; `#` for a number, `@` for one with a unit; 0 and 1 as they are. */
function plainText(tokens: readonly Token[]): { readonly text: string; readonly pieces: readonly Piece[] } {
  const pieces: Piece[] = [];
  let text = '';
  let index = 0;
  while (index < tokens.length) {
    const token = tokens[index]!;
    const end = token.kind === 'number' ? numberEnd(tokens, index) : index + 1;
    const own = tokens.slice(index, end);
    const isOrdinal = /^(?:st|nd|rd|th)$/i.test(token.text) && !token.spaced && text !== '';
    const isPoint = token.text === '.' && !token.spaced && text !== '';
    if (text !== '' && !isOrdinal && !isPoint) text += ' ';
    pieces.push({ at: text.length, tokens: own });
    if (isOrdinal) text += 'th';
    else if (token.kind === 'number') text += numberSign(own);
    else if (!isPoint) text += /^[#@]$/.test(token.text) ? '?' : token.text.toLowerCase();
    index = end;
  }
  return { text, pieces };
}

/** Where a number ends with all that measures it: `1/2`, `4′`, `2 deg 10 min`, `0.4 mm`. */
function numberEnd(tokens: readonly Token[], from: number): number {
  let end = from + 1;
  while (end < tokens.length && isMeasure(tokens, end)) end += 1;
  return end;
}

function isMeasure(tokens: readonly Token[], index: number): boolean {
  const token = tokens[index]!;
  switch (token.kind) {
    case 'number':
    case 'prime':
    case 'degree':
      return true;
    case 'operator':
      return token.text === '/' && tokens[index + 1]?.kind === 'number';
    case 'word':
      // `division 3 in line` speaks of no inches.
      return token.text !== 'in' && (unitWord(token.text) !== null || ANGLE_WORD.test(token.text));
    default:
      return false;
  }
}

const ANGLE_WORD = /^(?:degrees?|minutes?|seconds?)$/i;

function numberSign(tokens: readonly Token[]): string {
  const isBare = tokens.every(token => token.kind === 'number' || token.text === '/');
  if (!isBare) return '@';
  const only = tokens.length === 1 ? tokens[0]!.text : '';
  return only === '0' || only === '1' ? only : '#';
}

/** What may stand between two parts and says nothing. */
const BETWEEN = / |[,;().](?= |$)|(?:and|with|is|lies|stands|just(?! visible)|slightly|a little)(?= |$)/y;

function matchAt(pattern: RegExp, text: string, at: number): RegExpExecArray | null {
  pattern.lastIndex = at;
  return pattern.exec(text);
}

function partAt(
  text: string,
  at: number,
  pieces: readonly Piece[],
): { readonly part: ClosedPart; readonly length: number } | null {
  for (const { pattern, isLine, part } of closedForms()) {
    const match = matchAt(pattern, text, at);
    if (match === null) continue;
    const end = at + match[0].length;
    const numbers = pieces
      .filter(piece => at <= piece.at && piece.at < end && isMarked(piece, match))
      .map(({ tokens }) => tokens);
    const behind = isLine ? matchAt(BEHIND_LINE, text, end) : null;
    return {
      part: part({ ...match.groups, ...behind?.groups }, numbers),
      length: match[0].length + (behind?.[0].length ?? 0),
    };
  }
  return null;
}

/** Whether a piece is one of the numbers that the form asks for; the nought of `main 0` is none. */
function isMarked(piece: Piece, match: RegExpExecArray): boolean {
  return (match.indices ?? [])
    .slice(1)
    .some(place => place !== undefined && place[0] === piece.at && piece.tokens[0]!.kind === 'number');
}

/** What stands from a place on that no form takes, to the end of its part. */
function restOf(
  text: string,
  at: number,
  pieces: readonly Piece[],
  tokens: readonly Token[],
): readonly Token[] {
  const end = /[,;(]/.exec(text.slice(at + 1))?.index;
  const last = end === undefined ? text.length : at + 1 + end;
  const rest = pieces.filter(piece => at <= piece.at && piece.at < last).flatMap(piece => piece.tokens);
  return rest.length > 0 ? rest : tokens.slice(-1);
}
