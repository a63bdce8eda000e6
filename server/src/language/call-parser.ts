import type { Expression, FunctionName } from '../engine/expression.ts';
import { contentMark, holdsOnlyNumbers, missingEnd, withUnit } from './bracket-parser.ts';
import * as problems from './expression-problems.ts';
import { functionNamed, inverseOf } from './function-words.ts';
import { wholeLiteral } from './literal-parser.ts';
import {
  beginsFactor,
  doubt,
  fail,
  isOperator,
  isRaised,
  nested,
  type ParserState,
  type Part,
  type PartReader,
  partOf,
  spanOfTokens,
} from './parser-state.ts';
import { wholeExponent } from './unit-parser.ts';

/**
 * Reads a function's call, from its word on: `sqrt(x)`, `sin 30°`, `sin^-1(0.5)`, `mean(2.4 cm, 2.5 cm)`.
 *
 *     > | sin^2 (30°)
 *         ^^^           the function
 *            ^^         an exponent of the result; ^-1 turns the function round
 *               ^^^^^   its argument
 *
 * Null, with the reason noted, where it cannot be read or may reach farther than it says.
 */
export function readCall(
  state: ParserState,
  name: FunctionName,
  readSum: PartReader,
  readOperand: (state: ParserState, readSum: PartReader) => Part | null,
): Part | null {
  const from = state.at;
  const mark = contentMark(state);
  state.at += 1;
  const raised = readRaisedFunction(state, name);
  if (raised === null) return null;
  const called = raised.inverse ? (inverseOf(name) ?? name) : name;
  const bracketed = isOperator(state.tokens[state.at], '(');
  const values = bracketed
    ? readArguments(state, called, readSum)
    : readBareArgument(state, from, () => readOperand(state, readSum));
  if (values === null) return null;
  const call: Expression = { kind: 'call', name: called, arguments: values };
  const { exponent } = raised;
  const part = partOf(exponent === null ? call : { kind: 'power', base: call, exponent }, from, state.at);
  return bracketed && holdsOnlyNumbers(state, mark) ? withUnit(state, part) : part;
}

/** Whether a function's word is followed by what it can take; `mean` alone begins other words. */
export function takesArgument(state: ParserState, name: FunctionName): boolean {
  const next = state.tokens[state.at + 1];
  if (isOperator(next, '(')) return true;
  if (name === 'mean' || name === 'mod' || name === 'abs') return false;
  return isRaised(next) ? inverseOf(name) !== null : beginsFactor(state, state.at + 1);
}

interface RaisedFunction {
  readonly inverse: boolean;
  readonly exponent: Expression | null;
}

function readRaisedFunction(state: ParserState, name: FunctionName): RaisedFunction | null {
  const { tokens, at } = state;
  if (!isRaised(tokens[at])) return { inverse: false, exponent: null };
  const raised = wholeExponent(tokens, at);
  const span = spanOfTokens(state.tokens, at, raised?.to ?? at + 1);
  const isInverse = raised?.value === -1;
  if (raised === null || (!isInverse && (raised.value < 2 || 9 < raised.value))) {
    const message = `behind ${name} stands 2 for the square of its value or -1 for its inverse, other exponents go behind the brackets`;
    return fail(state, problems.unreadable(span, message));
  }
  state.at = raised.to;
  return { inverse: isInverse, exponent: isInverse ? null : wholeLiteral(state, raised.value, span) };
}

/** What stands in a function's brackets: one value, two for `mod`, any number for `mean`. */
function readArguments(state: ParserState, name: FunctionName, readSum: PartReader): Expression[] | null {
  const opening = state.at;
  const insideArguments = name === 'mean' || name === 'mod';
  state.at += 1;
  const values = nested(state, { insideBars: false, insideArguments }, () => readValues(state, readSum));
  if (values === null) return null;
  if (!isOperator(state.tokens[state.at], ')')) return fail(state, missingEnd(state, opening));
  state.at += 1;
  if (name !== 'mod' || values.length === 2) return values;
  const span = spanOfTokens(state.tokens, opening - 1, state.at);
  const message = 'mod takes two values, what is divided and by what, as in mod(7.26 mm, 0.5 mm)';
  return fail(state, problems.unreadable(span, message));
}

/** Values with commas between them, where commas separate at all. */
function readValues(state: ParserState, readSum: PartReader): Expression[] | null {
  const values: Expression[] = [];
  for (;;) {
    const value = readSum(state);
    if (value === null) return null;
    values.push(value.expression);
    if (!state.insideArguments || !isOperator(state.tokens[state.at], ',')) return values;
    state.at += 1;
  }
}

/** `sin 30°`, `√2`: one number or name without brackets, and nothing in doubt behind it. */
function readBareArgument(
  state: ParserState,
  name: number,
  readArgument: () => Part | null,
): Expression[] | null {
  const argument = nested(state, {}, readArgument);
  if (argument === null) return null;
  const next = state.tokens[state.at];
  const isCall = next?.kind === 'word' && functionNamed(next.text) !== null;
  const goesOn = beginsFactor(state, state.at) && !isCall && next?.kind !== 'number';
  if (goesOn || isRaised(next)) doubt(state, problems.doubtfulReach(state, name, argument));
  return [argument.expression];
}
