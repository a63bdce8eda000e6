import { isOperator } from './parser-state.ts';
import type { Token } from './syntax.ts';

const COUNTED =
  /^(?:rotations?|turns?|revolutions?|divisions?|divs?|parts?|oscillations?|vibrations?|swings?|cycles?|sheets?|coins?)$/i;

/**
 * A link without the words for what is counted: `5 mm / 5 rotations`, `45 div × 0.01 mm`, `pitch/(100 divisions)`.
 *
 *     > | 3 mm + 45 div × 0.01 mm
 *                   ^^^           says what the 45 counts, and no more
 *
 * A count that is nobody's factor keeps its word: it may be a length in divisions.
 */
export function withoutCountWords(tokens: readonly Token[]): readonly Token[] {
  if (!tokens.some(isCountWord)) return tokens;
  return tokens.filter((token, at) => !isCountWord(token, at, tokens) || !isFactor(tokens, at));
}

function isCountWord(token: Token, at: number, tokens: readonly Token[]): boolean {
  return token.kind === 'word' && COUNTED.test(token.text) && tokens[at - 1]?.kind === 'number';
}

/** Whether a number and its word, perhaps in brackets, are multiplied or divide. */
function isFactor(tokens: readonly Token[], at: number): boolean {
  const inBrackets = isOperator(tokens[at - 2], '(') && isOperator(tokens[at + 1], ')');
  const before = tokens[inBrackets ? at - 3 : at - 2];
  const behind = tokens[inBrackets ? at + 2 : at + 1];
  // `1/4 turn` is a part of one.
  const isFraction = isOperator(before, '/') && tokens[at - 3]?.kind === 'number';
  return !isFraction && (isOperator(before, '/', '×') || isOperator(behind, '×'));
}
