import type { Expression } from '../engine/expression.ts';
import { withUnit } from './bracket-parser.ts';
import * as problems from './expression-problems.ts';
import { signedLiteral, wholeLiteral } from './literal-parser.ts';
import { mixedBeside, numberBeside } from './number-problems.ts';
import { readOperand } from './operand-parser.ts';
import {
  beginsFactor,
  doubt,
  fail,
  isOperator,
  isRaised,
  nested,
  type ParserState,
  type Part,
  partOf,
} from './parser-state.ts';
import type { Token } from './syntax.ts';
import { unitBelow } from './unit-below.ts';

/**
 * Reads a sum from the place reached as far as it goes.
 *
 * From weak to strong: `+ -`, then `× /` from left to right, then a sign in front, then factors side by
 * side (`2k`), then exponents from right to left.
 */
export function readSum(state: ParserState): Part | null {
  let left = readProduct(state);
  while (left !== null && isOperator(state.tokens[state.at], '+', '-')) {
    const kind = isOperator(state.tokens[state.at], '+') ? 'add' : 'subtract';
    state.at += 1;
    const right = readProduct(state);
    if (right === null) return null;
    left = joined(kind, left, right);
  }
  return left;
}

function joined(kind: 'add' | 'subtract' | 'multiply' | 'divide', left: Part, right: Part): Part {
  return partOf({ kind, left: left.expression, right: right.expression }, left.from, right.to);
}

function readProduct(state: ParserState): Part | null {
  let left = readSigned(state);
  while (left !== null && isOperator(state.tokens[state.at], '×', '/')) {
    const divides = isOperator(state.tokens[state.at], '/');
    const doubtsBefore = state.problems.length;
    const below = divides ? unitBelow(state, left) : null;
    if (below !== null) return fail(state, below);
    state.at += 1;
    const right = readSigned(state);
    if (right === null) return null;
    const isClear = state.problems.length === doubtsBefore;
    if (divides && isClear && (right.factors > 1 || right.shape === 'power-of-ten')) {
      doubt(state, problems.dividedProduct(state, left, right, endOfDivisor(state, right)));
    }
    left = joined(divides ? 'divide' : 'multiply', left, right);
  }
  return left;
}

/** Where the divisor ends if it is only the first thing behind the stroke: the 2 of `1/2 m` where m is a name. */
function endOfDivisor(state: ParserState, right: Part): number {
  const next = state.tokens[right.from + 1];
  const isNumber = state.tokens[right.from]?.kind === 'number';
  const mayBeName = next?.kind === 'word' && state.bothWays.has(next.text);
  return isNumber && (right.shape === 'power-of-ten' || mayBeName) ? right.from + 1 : right.secondFactor;
}

/** A sign in front binds weaker than factors side by side: `-2k` is -(2k), `-2^2` is -(2^2). */
function readSigned(state: ParserState): Part | null {
  const from = state.at;
  const sign = state.tokens[from];
  if (!isOperator(sign, '+', '-')) return readFactors(state);
  state.at += 1;
  if (isOperator(state.tokens[state.at], '+', '-') && isOperator(state.tokens[state.at + 1], '+', '-')) {
    return fail(state, problems.unexpected(state, state.at + 1, 'value'));
  }
  const operand = nested(state, {}, () => readSigned(state));
  if (operand === null) return null;
  const { expression } = operand;
  const folds = from === 0 && expression.kind === 'literal' && coversWhole(state, expression, operand);
  const negative = isOperator(sign, '-');
  const signed: Expression = folds
    ? signedLiteral(state, expression, sign as Token)
    : negative
      ? { kind: 'negate', of: expression }
      : expression;
  return { ...operand, expression: signed, from };
}

/** Whether a literal ends where its piece ends, so that no bracket closes behind it. */
function coversWhole(state: ParserState, literal: Expression, part: Part): boolean {
  return state.spans.get(literal)?.end === state.tokens[part.to - 1]?.span.end;
}

/** Factors side by side: `2k`, `pi D^2`, `2(a + b)`. A number can only be the first of them. */
function readFactors(state: ParserState): Part | null {
  let left = readPowered(state);
  while (left !== null && beginsFactor(state, state.at)) {
    const next = state.tokens[state.at] as Token;
    const below = unitBelow(state, left);
    if (below !== null) return fail(state, below);
    if (next.kind === 'number') doubt(state, numberBeside(state, left));
    else if (left.shape === 'fraction') doubt(state, mixedBeside(state, left));
    const right = readPowered(state);
    if (right === null) return null;
    const secondFactor = left.factors === 1 ? left.to : left.secondFactor;
    left = { ...joined('multiply', left, right), factors: left.factors + 1, secondFactor };
  }
  return left;
}

/** An operand with its exponents: `D^3`, `r²`, `2^3^2` as 2^(3^2). */
function readPowered(state: ParserState): Part | null {
  let base = readOperand(state, readSum);
  while (base !== null && isRaised(state.tokens[state.at])) {
    const { expression, from } = base;
    const hasOpenUnit = expression.kind === 'literal' && expression.quantity.unit !== null;
    if (hasOpenUnit && state.tokens[from]?.kind === 'number') {
      return fail(state, problems.unitExponent(state, state.at));
    }
    const exponent = readExponent(state);
    if (exponent === null) return null;
    const part = partOf({ kind: 'power', base: expression, exponent }, from, state.at);
    base = isNumber(expression) && isNumber(exponent) ? withUnit(state, part) : part;
  }
  return base;
}

function isNumber(expression: Expression): boolean {
  return expression.kind === 'literal' && expression.quantity.unit === null;
}

/** What stands raised: no unit belongs to it, so `l^2 m` is l^2 times m. */
function readExponent(state: ParserState): Expression | null {
  const { tokens, at } = state;
  const token = tokens[at] as Token;
  if (token.kind === 'superscript') {
    state.at += 1;
    if (token.text.length > 4) return fail(state, problems.unexpected(state, at, 'end'));
    return wholeLiteral(state, Number(token.text), token.span);
  }
  state.at += 1;
  return nested(state, { unitsAllowed: false }, () => {
    const sign = tokens[state.at];
    const signed = isOperator(sign, '+', '-');
    if (signed) state.at += 1;
    const operand = readOperand(state, readSum);
    if (operand === null) return null;
    let expression = operand.expression;
    if (isRaised(tokens[state.at])) {
      const exponent = readExponent(state);
      if (exponent === null) return null;
      expression = { kind: 'power', base: expression, exponent };
    }
    if (!signed) return expression;
    if (expression.kind === 'literal') return signedLiteral(state, expression, sign as Token);
    return isOperator(sign, '-') ? { kind: 'negate', of: expression } : expression;
  });
}
