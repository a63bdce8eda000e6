import { sameDimension } from '../engine/dimension.ts';
import { evaluate, NO_VALUE, namesIn } from '../engine/evaluation.ts';
import type * as Q from '../engine/quantity.ts';
import { readLinks } from './claim.ts';
import type { Draft } from './draft.ts';
import { type Parsed, parseExpression } from './expression-parser.ts';
import { splitAt } from './interpret-scale.ts';
import { spanOfTokens } from './left-side.ts';
import type { Statement } from './parser.ts';
import { type NameTable, NO_WORDS, textOfTokens } from './parser-state.ts';
import type { Token } from './syntax.ts';

/**
 * Reads what is claimed of numbers alone: `24 mm + 6 × 0.1 mm = 24.6 mm`, `1 in = 25.4 mm`.
 *
 * It is right or wrong by itself: it names no quantity, and nothing rests on it. False, with nothing reported, where a
 * side names something.
 */
export function interpretNumbers(draft: Draft, statement: Statement): boolean {
  if (draft.choices.has(statement) || !isAboutNumbers(statement, draft.table)) return false;
  const { left, sign, right, span } = statement;
  const text = textOfTokens(left, 0, left.length);
  draft.sums.push({
    subject: { kind: 'own', name: text, row: null, block: null },
    symbol: null,
    times: null,
    subjectText: text,
    subjectSpan: spanOfTokens(left) ?? span,
    links: [...readLinks(draft, left, sign), ...readLinks(draft, right, sign)],
    span,
    signSpan: sign,
    inTable: false,
    mended: draft.mending !== null,
  });
  return true;
}

type ClaimStatement = Extract<Statement, { readonly kind: 'claim' }>;

const NO_NAMES: NameTable = { longestName: () => null };

/**
 * Whether all sides of a claim are numbers with their units, and the first is worked out, or a value that the others say
 * in other units; by default as if words named nothing.
 */
export function isAboutNumbers(
  statement: Statement,
  names: NameTable = NO_NAMES,
): statement is ClaimStatement {
  if (statement.kind !== 'claim' || !statement.left.some(({ kind }) => kind === 'number')) return false;
  const { kind } = statement.leftSide;
  if (kind !== 'own' && kind !== 'multiple') return false;
  const [first, ...others] = [statement.left, ...splitAt(statement.right)].map(side => readSide(side, names));
  if (first == null || others.includes(null)) return false;
  if (!first.isValue) return true;
  return first.hasUnit && others.every(other => isOfKind(other!, first));
}

function readSide(tokens: readonly Token[], names: NameTable): Parsed | null {
  const parsed = parseExpression(tokens, { names, asNames: NO_WORDS, mode: 'link' });
  const { expression, problems, ambiguousWords, mixed, error } = parsed;
  if (expression === null || problems.length > 0 || error !== null) return null;
  return ambiguousWords.size > 0 || mixed !== null || namesIn(expression).size > 0 ? null : parsed;
}

function isOfKind(side: Parsed, first: Parsed): boolean {
  const [value, wanted] = [quantityOf(side), quantityOf(first)];
  return value !== null && wanted !== null && sameDimension(value.dimension, wanted.dimension);
}

function quantityOf({ expression }: Parsed): Q.Quantity | null {
  const value = evaluate(expression!, () => NO_VALUE);
  return value.ok ? value.quantity : null;
}
