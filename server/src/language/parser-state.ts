import type { Expression } from '../engine/expression.ts';
import type { Rational } from '../engine/rational.ts';
import type { Unit } from '../engine/unit.ts';
import { functionNamed } from './function-words.ts';
import type { Problem } from './problem.ts';
import { joinSpans, type Span, type Token } from './syntax.ts';

/** What the parser of expressions knows and has gathered: the only thing in it that changes. */
export interface ParserState {
  /** A copy of the link's tokens; a word such as `µN` may be split into symbols. */
  readonly tokens: Token[];
  readonly names: NameTable;
  /** Words that are names here although units are called so too. */
  readonly asNames: ReadonlySet<string>;
  readonly mode: 'value' | 'link';
  at: number;
  /** Brackets, exponents and the like that stand open. */
  depth: number;
  /** Whether a unit may follow a number: not in an exponent. */
  unitsAllowed: boolean;
  /** Whether a bar closes rather than opens. */
  insideBars: boolean;
  /** Whether a comma separates values. */
  insideArguments: boolean;
  readonly spans: Map<Expression, Span>;
  readonly numbers: Map<Expression, NumberParts>;
  readonly units: UnitUse[];
  readonly problems: Problem[];
  /** Whether something was read that has two readings. */
  inDoubt: boolean;
  /** Words after a number that both a unit and a name are called. */
  readonly bothWays: Set<string>;
  /** Words that were read as names, a word each. */
  readonly nameWords: Set<string>;
  nameCount: number;
}

/** The names that a link may use: of terms, of quantities of one's own, of rows and other blocks. */
export interface NameTable {
  /** The longest name that begins at `tokens[index]`, and how many tokens it takes; null for none. */
  longestName(tokens: readonly Token[], index: number): NameFound | null;
}

export interface NameFound {
  readonly key: string;
  readonly length: number;
  readonly text: string;
}

/** A literal's number apart from its unit, so that the unit can be given to it later. */
export interface NumberParts {
  readonly value: Rational;
  /** One in the last place as typed; null for a fraction. */
  readonly place: Rational | null;
  readonly text: string;
  readonly span: Span;
}

/** A unit that was read, and the token after its last one. */
export interface UnitUse {
  readonly unit: Unit;
  readonly to: number;
  /** As typed; null for the several units of `24° 31′`. */
  readonly text: string | null;
}

/** A piece of an expression and the tokens it came from, `from <= index && index < to`. */
export interface Part {
  readonly expression: Expression;
  readonly from: number;
  readonly to: number;
  /** How many factors stand beside each other without a sign: two in `2k`. */
  readonly factors: number;
  /** The token at which the second of them begins. */
  readonly secondFactor: number;
  /** How its number was put, where it is one. */
  readonly shape: 'plain' | 'fraction' | 'power-of-ten';
}

/** Reads a part of an expression from the place reached; null, with the reason noted, where it cannot. */
export type PartReader = (state: ParserState) => Part | null;

/** For links in which no word after a number is a name. */
export const NO_WORDS: ReadonlySet<string> = new Set();

export const MOST_TOKENS = 400;
const DEEPEST_NESTING = 40;
export const MOST_DIGITS = 60;
export const LARGEST_EXPONENT = 60;

export function newState(
  tokens: readonly Token[],
  options: Pick<ParserState, 'names' | 'asNames' | 'mode'>,
): ParserState {
  return {
    tokens: withTimes(tokens, options.names),
    names: options.names,
    asNames: options.asNames,
    mode: options.mode,
    at: 0,
    depth: 0,
    unitsAllowed: true,
    insideBars: false,
    insideArguments: false,
    spans: new Map(),
    numbers: new Map(),
    units: [],
    problems: [],
    inDoubt: false,
    bothWays: new Set(),
    nameWords: new Set(),
    nameCount: 0,
  };
}

/** A copy of the tokens in which an `x` between two values is the sign `×`, unless something is called x. */
function withTimes(tokens: readonly Token[], names: NameTable): Token[] {
  if (!tokens.some(isLoneX)) return tokens.slice();
  return tokens.map((token, index) => {
    const isLetter = isLoneX(token);
    const next = tokens[index + 1];
    if (!isLetter || !next?.spaced || !endsOperand(tokens[index - 1])) return token;
    const goesOn = next.kind === 'number' || next.kind === 'word' || isOperator(next, '(', '|', '√');
    const isTimes = goesOn && names.longestName(tokens, index) === null;
    return isTimes ? { ...token, kind: 'operator', text: '×' } : token;
  });
}

function isLoneX(token: Token): boolean {
  return token.kind === 'word' && token.spaced && (token.text === 'x' || token.text === 'X');
}

function endsOperand(token: Token | undefined): boolean {
  if (token?.kind === 'operator') return token.text === ')' || token.text === '|';
  return token !== undefined && !(token.kind === 'word' && functionNamed(token.text) !== null);
}

export function isOperator(token: Token | undefined, text: string, second?: string, third?: string): boolean {
  if (token === undefined || token.kind !== 'operator') return false;
  return token.text === text || token.text === second || token.text === third;
}

/** Whether an exponent begins at a token. */
export function isRaised(token: Token | undefined): boolean {
  return token?.kind === 'superscript' || isOperator(token, '^');
}

/** Whether a factor may begin at a token: then it stands beside what came before. */
export function beginsFactor(state: ParserState, at: number): boolean {
  const token = state.tokens[at];
  if (token?.kind === 'number' || token?.kind === 'word') return true;
  return isOperator(token, '(', '√') || (isOperator(token, '|') && !state.insideBars);
}

/** Where the tokens `from <= index && index < to` stand in the note. */
export function spanOfTokens(tokens: readonly Token[], from: number, to: number): Span {
  const first = tokens[from] as Token;
  return joinSpans(first.span, (tokens[Math.max(from, to - 1)] ?? first).span);
}

/** What the tokens `from <= index && index < to` say, in plain signs, spaced as typed. */
export function textOfTokens(tokens: readonly Token[], from: number, to: number): string {
  return joinedText(tokens, from, to, false);
}

/** The same for a value: its unit stands apart from its number, as print has it. */
export function literalText(tokens: readonly Token[], from: number, to: number): string {
  return joinedText(tokens, from, to, true);
}

function joinedText(tokens: readonly Token[], from: number, to: number, unitsApart: boolean): string {
  let text = '';
  for (let index = from; index < to; index += 1) {
    const token = tokens[index] as Token;
    const next = tokens[index + 1];
    const isMicro = token.text === 'mu' && next?.kind === 'word' && !next.spaced && index + 1 < to;
    const apart =
      token.spaced || (unitsApart && token.kind === 'word' && tokens[index - 1]?.kind === 'number');
    const raised = token.kind === 'superscript' ? '^' : '';
    text += `${from < index && apart ? ' ' : ''}${raised}${isMicro ? 'µ' : token.text}`;
  }
  return text;
}

const LONGEST_QUOTE = 60;

/** A quotation for a message or a title: what is very long is cut in its middle. */
export function brief(text: string): string {
  if (text.length <= LONGEST_QUOTE) return text;
  const half = LONGEST_QUOTE / 2 - 2;
  return `${text.slice(0, half)} … ${text.slice(-half)}`;
}

/** A piece that stands as one factor. */
export function partOf(expression: Expression, from: number, to: number): Part {
  return { expression, from, to, factors: 1, secondFactor: to, shape: 'plain' };
}

/** Notes why the expression cannot be read any further. */
export function fail(state: ParserState, problem: Problem): null {
  state.problems.push(problem);
  return null;
}

/**
 * Notes that something can be read in two ways. The parser goes on with either, to find what else is in
 * doubt, but hands no expression on.
 */
export function doubt(state: ParserState, problem: Problem): void {
  state.problems.push(problem);
  state.inDoubt = true;
}

/**
 * Reads something nested one level deeper, with its own rules for units, bars and commas, and puts the
 * surrounding rules back. Null, with the limit as the reason, past the deepest nesting.
 */
export function nested<T>(
  state: ParserState,
  rules: Partial<Pick<ParserState, 'unitsAllowed' | 'insideBars' | 'insideArguments'>>,
  read: () => T | null,
): T | null {
  const { unitsAllowed, insideBars, insideArguments } = state;
  if (state.depth >= DEEPEST_NESTING) {
    const at = Math.min(state.at, state.tokens.length - 1);
    return fail(state, {
      rule: 'limit',
      span: spanOfTokens(state.tokens, at, at + 1),
      message: `brackets and exponents stand more than ${DEEPEST_NESTING} deep here, work it out in several lines`,
      fixes: [],
    });
  }
  state.depth += 1;
  Object.assign(state, rules);
  const result = read();
  Object.assign(state, { unitsAllowed, insideBars, insideArguments });
  state.depth -= 1;
  return result;
}
