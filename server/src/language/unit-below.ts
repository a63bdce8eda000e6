import { replacing } from './expression-fixes.ts';
import { functionNamed } from './function-words.ts';
import { isOperator, literalText, type ParserState, type Part, spanOfTokens } from './parser-state.ts';
import type { Problem } from './problem.ts';
import { readUnit } from './unit-parser.ts';

/**
 * `1.2 × 10^-5 /K`, `1.2 × 10^-5 1/K`, `0.4 per °C`: a unit below the line with none above it.
 *
 *     > | 1.2 × 10^-5 1/K
 *         ^^^^^^^^^^^        left, without a unit
 *                     ^^^    the problem, with K^-1 as its fix
 *
 * Null where what follows `left` is no such unit, or a word in it is a name.
 */
export function unitBelow(state: ParserState, left: Part): Problem | null {
  const { tokens } = state;
  if (left.expression.kind !== 'literal' || left.expression.quantity.unit !== null) return null;
  const from = left.to;
  const unitAt = behindLine(state, from);
  const word = unitAt === null ? undefined : tokens[unitAt];
  if (unitAt === null || word === undefined) return null;
  if (word.kind === 'word' && functionNamed(word.text) !== null) return null;
  if (state.names.longestName(tokens, unitAt) !== null) return null;
  const read = word.kind === 'word' || word.kind === 'degree' ? readUnit(state, unitAt) : null;
  const isWhole = read !== null && read.unit.parts.length === 1 && read.unit.parts[0]?.exponent === 1;
  if (!isWhole) return null;
  const unit = `${literalText(tokens, unitAt, read.to)}^-1`;
  const span = spanOfTokens(tokens, from, read.to);
  const apart = tokens[from]?.spaced ? '' : ' ';
  return {
    rule: 'unreadable-line',
    span,
    message: `no unit stands above the line here, so this one is written ${unit}`,
    fixes: [replacing(span, `${apart}${unit}`, true)],
  };
}

/** Where the unit begins behind `/`, `1/` or `per`; null for none of these. */
function behindLine({ tokens }: ParserState, at: number): number | null {
  if (isOperator(tokens[at], '/')) return at + 1;
  const token = tokens[at];
  if (token?.kind === 'word' && token.text === 'per') return at + 1;
  const isOne = token?.kind === 'number' && token.text === '1' && isOperator(tokens[at + 1], '/');
  return isOne ? at + 2 : null;
}
