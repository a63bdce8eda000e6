import type { Expression } from '../engine/expression.ts';
import { plain } from '../engine/quantity.ts';
import { multiply, ONE, powerInteger, type Rational, TEN, ZERO } from '../engine/rational.ts';
import { type Unit, unitShown } from '../engine/unit.ts';
import { readSum } from './arithmetic-parser.ts';
import { unexpected, unreadable } from './expression-problems.ts';
import { withLastUnit } from './last-unit.ts';
import { type Literal, literalOf, readLiteral, replaceLiteral, useUnit } from './literal-parser.ts';
import { errorWithoutUnit, tooHigh } from './number-problems.ts';
import { fail, isOperator, LARGEST_EXPONENT, type ParserState, spanOfTokens } from './parser-state.ts';
import type { Span, Token } from './syntax.ts';
import { readUnit, wholeExponent } from './unit-parser.ts';

/** A link's expression, and the literal behind its ± where there is one. */
export interface ValueAndError {
  readonly value: Expression;
  readonly error: Expression | null;
}

/**
 * Reads all tokens as one link: an expression, and an error behind ± if one is stated.
 *
 *     > | 1.06 g ± 0.01 g
 *         ^^^^^^            the value
 *                  ^^^^^^   its error
 *
 * `nil` is nought. Null, with the reason noted, where the tokens cannot be read to the last one.
 */
export function readValueAndError(state: ParserState): ValueAndError | null {
  const { tokens } = state;
  const only = tokens.length === 1 ? tokens[0] : undefined;
  if (only?.kind === 'word' && only.text.toLowerCase() === 'nil') {
    const number = { value: ZERO, place: null, text: only.text, span: only.span };
    return { value: literalOf(state, number, null, only.text, only.span), error: null };
  }
  const closing = bracketsAroundError(tokens);
  const read = closing === null ? readWithError(state) : readBracketed(state, closing);
  if (read === null) return null;
  return state.at < tokens.length ? fail(state, unexpected(state, state.at, 'end')) : read;
}

/** The token that closes the brackets of `(3.58 ± 0.02) mm`, where the link begins with such brackets. */
function bracketsAroundError(tokens: readonly Token[]): number | null {
  if (!isOperator(tokens[0], '(')) return null;
  let depth = 0;
  let hasError = false;
  for (const [index, token] of tokens.entries()) {
    if (isOperator(token, '(')) depth += 1;
    else if (isOperator(token, ')')) depth -= 1;
    else if (isOperator(token, '±') && depth === 1) hasError = true;
    if (depth === 0) return hasError ? index : null;
  }
  return null;
}

/** `(3.58 ± 0.02) mm`, `(3.58 ± 0.02) × 10^-3 m`: what stands behind the brackets holds for both. */
function readBracketed(state: ParserState, closing: number): ValueAndError | null {
  state.at = 1;
  const read = readWithError(state);
  if (read === null) return null;
  if (state.at !== closing) return fail(state, unexpected(state, state.at, 'end'));
  state.at += 1;
  const scale = readScale(state);
  if (scale === null) return null;
  const unit = state.units.length === 0 ? readUnit(state, state.at) : null;
  if (unit !== null) {
    useUnit(state, unit, state.at);
    state.at = unit.to;
  }
  const shared = (part: Expression) => inUnit(state, scaled(state, part, scale), unit?.unit ?? null);
  return { value: shared(read.value), error: read.error === null ? null : shared(read.error) };
}

interface Scale {
  readonly factor: Rational;
  /** As typed; empty for none. */
  readonly text: string;
}

/** `× 10^-3` behind brackets; a factor of one where none stands. */
function readScale(state: ParserState): Scale | null {
  const { tokens, at } = state;
  const isPower = isOperator(tokens[at], '×') && tokens[at + 1]?.text === '10';
  const exponent = isPower ? wholeExponent(tokens, at + 2) : null;
  if (exponent === null) return { factor: ONE, text: '' };
  const isLarge = Math.abs(exponent.value) > LARGEST_EXPONENT;
  const factor = isLarge ? null : powerInteger(TEN, exponent.value);
  if (factor === null) return fail(state, tooHigh(spanOfTokens(state.tokens, at + 1, exponent.to)));
  state.at = exponent.to;
  return { factor, text: ` × 10^${exponent.value}` };
}

function scaled(state: ParserState, expression: Expression, scale: Scale): Expression {
  if (scale.text === '') return expression;
  const number = state.numbers.get(expression);
  if (expression.kind === 'literal' && number !== undefined) {
    const place = number.place === null ? null : multiply(number.place, scale.factor);
    const text = number.text + scale.text;
    const parts = { ...number, value: multiply(number.value, scale.factor), place, text };
    return replaceLiteral(state, expression, parts, expression.quantity.unit, text);
  }
  const power: Expression = { kind: 'literal', quantity: plain(scale.factor), place: null, text: scale.text };
  return { kind: 'multiply', left: expression, right: power };
}

/** The expression in a unit that stands apart from it. */
function inUnit(state: ParserState, expression: Expression, unit: Unit | null): Expression {
  if (unit === null) return expression;
  const number = state.numbers.get(expression);
  if (expression.kind !== 'literal' || number === undefined)
    return { kind: 'measured', of: expression, unit };
  const gap = /^[°′″](?![A-Za-z])/.test(unitShown(unit)) ? '' : ' ';
  return replaceLiteral(state, expression, number, unit, `${number.text}${gap}${unitShown(unit)}`);
}

function readWithError(state: ParserState): ValueAndError | null {
  const main = readSum(state);
  if (main === null) return null;
  const value = withLastUnit(state, main);
  if (!isOperator(state.tokens[state.at], '±')) return { value, error: null };
  const unitsBefore = state.units.length;
  state.at += 1;
  if (state.tokens[state.at]?.kind !== 'number') {
    const span = spanOfTokens(state.tokens, state.at - 1, Math.min(state.at + 1, state.tokens.length));
    return fail(state, unreadable(span, 'behind ± stands a number, the error of the value before it'));
  }
  const error = readLiteral(state);
  if (error?.expression.kind !== 'literal') return null;
  return shareUnit(state, value, error.expression, unitsBefore);
}

/** `3.58 ± 0.02 mm`: one unit for both; `1.06 g ± 0.01`: a unit is missing. */
function shareUnit(
  state: ParserState,
  value: Expression,
  error: Literal,
  unitsBefore: number,
): ValueAndError {
  const { unit } = error.quantity;
  if (unit !== null) {
    const shares = unitsBefore === 0 && state.nameCount === 0 && unit.symbol !== '%';
    return { value: shares ? inUnit(state, value, unit) : value, error };
  }
  const use = state.units[0];
  if (use === undefined || unitsBefore !== 1) return { value, error };
  state.problems.push(errorWithoutUnit(state.spans.get(error) as Span, error.text, use));
  // Which of the units of 24° 31′ is meant, nobody can tell.
  return { value, error: use.text === null ? null : inUnit(state, error, use.unit) };
}
