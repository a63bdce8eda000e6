import type { Expression } from '../engine/expression.ts';
import * as problems from './expression-problems.ts';
import { replaceLiteral, useUnit } from './literal-parser.ts';
import {
  fail,
  isOperator,
  literalText,
  nested,
  type ParserState,
  type Part,
  type PartReader,
  partOf,
  spanOfTokens,
} from './parser-state.ts';
import type { Problem } from './problem.ts';
import type { Token } from './syntax.ts';
import { readUnit } from './unit-parser.ts';

/** Reads what stands in round brackets; a unit behind brackets around numbers measures all of them. */
export function readBrackets(state: ParserState, readSum: PartReader): Part | null {
  return readEnclosed(state, ')', false, readSum, inner => inner);
}

/** Reads `|…|`: the size without the sign. */
export function readBars(state: ParserState, readSum: PartReader): Part | null {
  return readEnclosed(state, '|', true, readSum, inner => ({
    kind: 'call',
    name: 'abs',
    arguments: [inner],
  }));
}

function readEnclosed(
  state: ParserState,
  closing: string,
  insideBars: boolean,
  readSum: PartReader,
  meant: (inner: Expression) => Expression,
): Part | null {
  const from = state.at;
  const mark = contentMark(state);
  state.at += 1;
  const inner = nested(state, { insideBars, insideArguments: false }, () => readSum(state));
  if (inner === null) return null;
  if (!isOperator(state.tokens[state.at], closing)) return fail(state, missingEnd(state, from));
  state.at += 1;
  const part = partOf(meant(inner.expression), from, state.at);
  return holdsOnlyNumbers(state, mark) || isUnitSign(state.tokens[state.at]) ? withUnit(state, part) : part;
}

/** How much had been read when brackets were opened. */
export interface ContentMark {
  readonly names: number;
  readonly units: number;
}

export function contentMark(state: ParserState): ContentMark {
  return { names: state.nameCount, units: state.units.length };
}

/** Whether nothing but plain numbers was read since: then a unit may follow. */
export function holdsOnlyNumbers(state: ParserState, mark: ContentMark): boolean {
  return state.nameCount === mark.names && state.units.length === mark.units;
}

/** What to say where a bracket should close and does not. */
export function missingEnd(state: ParserState, opening: number): Problem {
  const token = state.tokens[state.at];
  if (token !== undefined && !isOperator(token, '=', '≈', '?'))
    return problems.unexpected(state, state.at, 'end');
  const { span, text } = state.tokens[opening] as Token;
  return problems.unreadable(
    span,
    text === '|' ? 'this bar is never closed' : 'this bracket is never closed',
  );
}

/** Signs that cannot be a name: behind brackets they always are a unit. */
function isUnitSign(token: Token | undefined): boolean {
  return token?.kind === 'degree' || token?.kind === 'percent' || token?.kind === 'prime';
}

/**
 * Gives a piece made of numbers the unit that follows it: `(50 - 47) mm`, `(1/20) cm`, `2^3 mm`.
 *
 * Behind π no number stands, so there a word that is a name as well stays a name.
 */
export function withUnit(state: ParserState, part: Part): Part {
  const unit = readUnit(state, state.at);
  const { expression, from } = part;
  if (unit === null || (expression.kind === 'pi' && unit.bothWays.length > 0)) return part;
  useUnit(state, unit, state.at);
  state.at = unit.to;
  const span = spanOfTokens(state.tokens, from, unit.to);
  const number = state.numbers.get(expression);
  if (expression.kind === 'literal' && number !== undefined) {
    const text = literalText(state.tokens, from, unit.to);
    return partOf(replaceLiteral(state, expression, number, unit.unit, text, span), from, unit.to);
  }
  return partOf({ kind: 'measured', of: expression, unit: unit.unit }, from, unit.to);
}
