import { unitText } from '../engine/unit.ts';
import { bracketing, replacing } from './expression-fixes.ts';
import { functionNamed } from './function-words.ts';
import { isOperator, literalText, type ParserState, type Part, spanOfTokens } from './parser-state.ts';
import type { Problem } from './problem.ts';
import type { Token } from './syntax.ts';
import { readUnit, type UnitRead } from './unit-parser.ts';

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
  // `0.4 /K` has its unit close behind the stroke; `1/T` and `5 / V` divide by what they name.
  const unit = tokens[at + 1];
  const isClose =
    tokens[at]?.spaced === true && unit !== undefined && !unit.spaced && !isOneAlone(tokens, at);
  if (isOperator(tokens[at], '/')) return isClose || unit?.kind === 'degree' ? at + 1 : null;
  const token = tokens[at];
  if (token?.kind === 'word' && token.text === 'per') return at + 1;
  const isOne = token?.kind === 'number' && token.text === '1' && isOperator(tokens[at + 1], '/');
  return isOne ? at + 2 : null;
}

function isOneAlone(tokens: readonly Token[], at: number): boolean {
  return at === 1 && tokens[0]?.text === '1';
}

/** `J/kg K`: whether K is divided by or multiplies is for the writer to say. */
export function besideBelow(state: ParserState, { unit, to }: UnitRead, from: number): Problem {
  const { tokens } = state;
  let stroke = to - 1;
  while (stroke > from && !isOperator(tokens[stroke], '/')) stroke -= 1;
  const below = `${literalText(tokens, from, stroke)}/(${literalText(tokens, stroke + 1, to)})`;
  const above = unitText(unit);
  return {
    rule: 'ambiguous-expression',
    span: spanOfTokens(tokens, from, to),
    message: `this may be ${below} or ${above}, so put brackets around what stands below the line`,
    fixes: [
      bracketing(`Write ${below}`, tokens[stroke + 1]!.span.start, tokens[to - 1]!.span.end),
      replacing(spanOfTokens(tokens, from, to), above),
    ],
  };
}
