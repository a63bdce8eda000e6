import type { Expression } from '../engine/expression.ts';
import { readValueAndError } from './error-parser.ts';
import { tooManyTokens } from './expression-problems.ts';
import { numberProblems } from './number-problems.ts';
import { MOST_TOKENS, type NameTable, NO_WORDS, newState, type ParserState } from './parser-state.ts';
import type { Problem } from './problem.ts';
import { quickValue } from './quick-value.ts';
import { joinSpans, type Span, type Token } from './syntax.ts';

export type { NameFound, NameTable } from './parser-state.ts';

export interface ParseOptions {
  readonly names: NameTable;
  /** Words to read as names after a number, although units are called so too; all others are units there. */
  readonly asNames: ReadonlySet<string>;
  /** In a record's value a word after a number is always a unit. */
  readonly mode: 'value' | 'link';
}

/** A link or a value as it was read. */
export interface Parsed {
  /** Null where it could not be read at all; then there is a problem that says why, but for no tokens at all. */
  readonly expression: Expression | null;
  /** One of its readings where it can be read in two ways, as `a / b c`; such a reading is never taken. */
  readonly doubtful: Expression | null;
  /** What stands after ±: a literal with its unit, or with the unit % for a share of the value. */
  readonly error: Expression | null;
  /** One number with its sign and unit, with or without an error. */
  readonly isValue: boolean;
  /** Words after a number that both a unit and a name are called, so that both readings must be tried. */
  readonly ambiguousWords: ReadonlySet<string>;
  /** The reading in which one word is a name here and a unit there: taken only where no other fits. */
  readonly mixed: Expression | null;
  readonly hasUnit: boolean;
  /** Where each literal and each name stands in the note. */
  readonly spans: ReadonlyMap<Expression, Span>;
  readonly problems: readonly Problem[];
}

/**
 * Reads a link or a record's value: `2.45 cm + 17 × 0.002 cm`, `pi D^3 / 6`, `(3.58 ± 0.02) mm`.
 *
 * What can be read in two ways is not read but reported, with both readings as fixes. Takes time in
 * proportion to the number of tokens, and nests no deeper than the stated limit.
 */
export function parseExpression(tokens: readonly Token[], options: ParseOptions): Parsed {
  const first = tokens[0];
  const last = tokens[tokens.length - 1];
  if (first === undefined || last === undefined) return unread([]);
  if (tokens.length > MOST_TOKENS) {
    return unread([tooManyTokens(joinSpans(first.span, last.span))]);
  }
  const wrong = numberProblems(tokens, options.names);
  if (wrong.length > 0) return unread(wrong);
  const quick = quickValue(tokens);
  if (quick !== null) return quick;
  if (options.mode === 'value') return parseOnce(newState(tokens, options), NO_WORDS);
  if (!mayBeValue(tokens)) return parseLink(tokens, options);
  const value = parseOnce(newState(tokens, { ...options, mode: 'value' }), NO_WORDS);
  if (!value.isValue || value.problems.length > 0) return parseLink(tokens, options);
  const named = dividedByName(tokens, options);
  return named === null ? value : { ...value, mixed: named };
}

/**
 * `1 mm / N` with a number N of the block: the length over that number, should newtons not fit. Null where no word
 * below a line is a name.
 */
function dividedByName(tokens: readonly Token[], options: ParseOptions): Expression | null {
  const names = tokens.flatMap(({ kind, text }, index) =>
    kind === 'word' &&
    tokens[index - 1]?.text === '/' &&
    options.names.longestName(tokens, index)?.length === 1
      ? [text]
      : [],
  );
  if (names.length === 0) return null;
  const asNames = new Set([...options.asNames, ...names]);
  const parsed = parseLink(tokens, { ...options, asNames });
  return parsed.problems.length === 0 && isKnown(parsed) ? parsed.expression : null;
}

/** A value begins with a number, its sign or the brackets around it, and adds nothing up. */
function mayBeValue(tokens: readonly Token[]): boolean {
  const first = tokens[0];
  if (first === undefined || (first.kind === 'word' && first.text.toLowerCase() !== 'nil')) return false;
  for (let index = 1; index < tokens.length; index++) {
    const token = tokens[index]!;
    const sum = token.kind === 'operator' && (token.text === '+' || token.text === '-');
    // A sign may stand raised, as in 10^-3.
    if (sum && tokens[index - 1]!.text !== '^' && tokens[index - 1]!.text !== '(') return false;
  }
  return true;
}

/**
 * One word is read alike throughout a link: a name where one must stand is a name after a number, too. Where that
 * leaves a word that stands for nothing, as `m × 9.81 m/s^2` with a mass m does s, it is a unit after a number; where
 * it means something, the other reading is kept beside it.
 */
function parseLink(tokens: readonly Token[], options: ParseOptions): Parsed {
  const settled = new Set<string>();
  let mixed: Parsed | null = null;
  for (;;) {
    const asNames = settled.size === 0 ? options.asNames : new Set([...options.asNames, ...settled]);
    const state = newState(tokens, settled.size === 0 ? options : { ...options, asNames });
    const parsed = parseOnce(state, settled);
    const torn =
      state.bothWays.size === 0
        ? []
        : [...state.bothWays].filter(word => state.nameWords.has(word) && !asNames.has(word));
    if (torn.length === 0) {
      if (mixed === null || parsed.expression === null) return parsed;
      return isKnown(parsed) ? { ...parsed, mixed: mixed.expression } : mixed;
    }
    for (const word of torn) settled.add(word);
    if (mixed === null && isKnown(parsed))
      mixed = { ...parsed, ambiguousWords: without(parsed.ambiguousWords, torn) };
  }
}

function without(words: ReadonlySet<string>, others: readonly string[]): ReadonlySet<string> {
  return new Set([...words].filter(word => !others.includes(word)));
}

/** Whether each word of what was read is a unit or stands for something. */
function isKnown({ expression, spans }: Parsed): boolean {
  if (expression === null) return false;
  for (const part of spans.keys()) if (part.kind === 'name' && part.key.startsWith('?')) return false;
  return true;
}

function parseOnce(state: ParserState, settled: ReadonlySet<string>): Parsed {
  const read = readValueAndError(state);
  if (read === null || state.inDoubt)
    return { ...unread(state.problems), doubtful: read?.value ?? null, hasUnit: state.units.length > 0 };
  return {
    expression: read.value,
    doubtful: null,
    error: read.error,
    isValue: read.value.kind === 'literal',
    ambiguousWords:
      state.bothWays.size === 0 ? NO_WORDS : new Set([...state.bothWays].filter(word => !settled.has(word))),
    mixed: null,
    hasUnit: state.units.length > 0,
    spans: state.spans,
    problems: state.problems,
  };
}

const NO_SPANS: ReadonlyMap<Expression, Span> = new Map();

function unread(reasons: readonly Problem[]): Parsed {
  return {
    expression: null,
    doubtful: null,
    error: null,
    isValue: false,
    ambiguousWords: NO_WORDS,
    mixed: null,
    hasUnit: false,
    spans: NO_SPANS,
    problems: reasons,
  };
}
