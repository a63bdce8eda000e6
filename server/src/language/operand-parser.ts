import type { Expression } from '../engine/expression.ts';
import { readBars, readBrackets, withUnit } from './bracket-parser.ts';
import { readCall, takesArgument } from './call-parser.ts';
import * as problems from './expression-problems.ts';
import { functionNamed } from './function-words.ts';
import { readLiteral } from './literal-parser.ts';
import {
  fail,
  type ParserState,
  type Part,
  type PartReader,
  partOf,
  spanOfTokens,
  textOfTokens,
} from './parser-state.ts';
import { spanOf, type Token } from './syntax.ts';
import { unitOf } from './unit-parser.ts';

/**
 * Reads one operand without its exponent: a number with its unit, a name, π, brackets, bars or a function.
 *
 * `readSum` reads what brackets hold. Null, with the reason noted, where no operand stands.
 */
export function readOperand(state: ParserState, readSum: PartReader): Part | null {
  const token = state.tokens[state.at];
  if (token?.kind === 'number') return readLiteral(state);
  if (token?.kind === 'word') return readWord(state, token, readSum);
  if (token?.kind === 'operator') {
    if (token.text === '(') return readBrackets(state, readSum);
    if (token.text === '|') return readBars(state, readSum);
    if (token.text === '√') return readCall(state, 'sqrt', readSum, readOperand);
  }
  return fail(state, problems.unexpected(state, state.at, 'value'));
}

function readWord(state: ParserState, token: Token, readSum: PartReader): Part | null {
  const { tokens, at } = state;
  const name = state.names.longestName(tokens, at);
  const isLonger = name !== null && name.length > 1;
  const called = functionNamed(token.text);
  if (called !== null && !isLonger && takesArgument(state, called)) {
    return readCall(state, called, readSum, readOperand);
  }
  if (token.text === 'pi' && !isLonger) {
    state.at += 1;
    return withUnit(state, partOf({ kind: 'pi' }, at, at + 1));
  }
  if (name !== null) {
    if (name.length === 1) state.nameWords.add(token.text);
    return nameOf(state, name.key, name.text, at + name.length);
  }
  if (token.text.startsWith('µ') && token.text.length > 1) {
    splitMicro(state, token);
    return readWord(state, state.tokens[at] as Token, readSum);
  }
  return readUnknown(state);
}

function nameOf(state: ParserState, key: string, text: string, to: number): Part {
  const from = state.at;
  const expression: Expression = { kind: 'name', key, text };
  state.spans.set(expression, spanOfTokens(state.tokens, from, to));
  state.nameCount += 1;
  state.at = to;
  return partOf(expression, from, to);
}

/** `µN` where no number stands before it is not a micronewton but µ times N. */
function splitMicro(state: ParserState, token: Token): void {
  const { start, end } = token.span;
  const mu: Token = { ...token, text: 'mu', span: spanOf(start, start + 1) };
  const rest: Token = { ...token, text: token.text.slice(1), span: spanOf(start + 1, end), spaced: false };
  state.tokens.splice(state.at, 1, mu, rest);
}

/** Words that mean nothing here stay together as one name, so that they are reported once. */
function readUnknown(state: ParserState): Part {
  const { tokens, at } = state;
  let to = at + 1;
  while (isLongUnknown(state, to - 1) && isLongUnknown(state, to)) to += 1;
  const text = textOfTokens(tokens, at, to);
  return nameOf(state, `?${text}`, text, to);
}

function isLongUnknown(state: ParserState, at: number): boolean {
  const token = state.tokens[at];
  if (token?.kind !== 'word' || token.text.length < 3 || token.text.startsWith('µ')) return false;
  if (functionNamed(token.text) !== null || unitOf(token.text) !== null) return false;
  return state.names.longestName(state.tokens, at) === null;
}
