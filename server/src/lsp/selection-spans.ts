import { tokenize } from '../language/lexer.ts';
import { type Block, isSign, type Statement } from '../language/parser.ts';
import { joinSpans, type Span, spanOf, type Token } from '../language/syntax.ts';

/**
 * What a selection at a place of a block grows to, the smallest first: a word or number, a value or link, a side, the
 * statement, the lines of the block, the block with its fences.
 */
export function selectionSpans({ fence, statements }: Block, offset: number): readonly Span[] {
  const spans: Span[] = [];
  const line = fence.lines.find(({ start, text }) => start <= offset && offset <= start + text.length);
  const statement = statements.find(({ span }) => holds(span, offset));
  if (line !== undefined) {
    const { tokens, comment } = tokenize(line.text, line.start);
    if (comment !== null && holds(comment, offset)) spans.push(comment);
    else spans.push(...tokens.map(({ span }) => span).filter(span => holds(span, offset)));
    if (statement !== undefined) spans.push(...partsOf(statement, offset));
    spans.push(spanOf(line.start, line.start + line.text.length));
  }
  if (statement !== undefined) spans.push(statement.span);
  const first = fence.lines[0];
  const last = fence.lines.at(-1);
  if (first !== undefined && last !== undefined)
    spans.push(spanOf(first.start, last.start + last.text.length));
  spans.push(fence.span);
  return growing(spans.filter(span => holds(span, offset)));
}

function holds(span: Span, offset: number): boolean {
  return span.start <= offset && offset <= span.end;
}

/** Each span holds the one before and is longer. */
function growing(spans: readonly Span[]): readonly Span[] {
  const kept: Span[] = [];
  const bySize = [...spans].sort((a, b) => a.end - a.start - (b.end - b.start));
  for (const span of bySize) {
    const before = kept.at(-1);
    const isLarger = before === undefined || before.end - before.start < span.end - span.start;
    if (isLarger && (before === undefined || (span.start <= before.start && before.end <= span.end)))
      kept.push(span);
  }
  return kept;
}

/** A number with its unit, a link between two signs of equality, and each side of the first sign. */
function partsOf(statement: Statement, offset: number): readonly Span[] {
  switch (statement.kind) {
    case 'words':
      return [];
    case 'table':
      return statement.lines.flatMap(({ cells, span }) => [...cells.map(cell => cell.span), span]);
    case 'record':
    case 'claim': {
      const { left, right } = statement;
      const links = splitAt(right, token => isSign(token, '=') || isSign(token, '≈'));
      const values = splitAt(right, token => token.kind === 'operator' && token.text !== '/');
      return [left, right, ...links, ...values].flatMap(tokens => {
        const span = spanOfAll(tokens);
        return span !== null && holds(span, offset) ? [span] : [];
      });
    }
  }
}

function splitAt(
  tokens: readonly Token[],
  isBetween: (token: Token) => boolean,
): readonly (readonly Token[])[] {
  const parts: Token[][] = [[]];
  for (const token of tokens) {
    if (isBetween(token)) parts.push([]);
    else parts.at(-1)!.push(token);
  }
  return parts;
}

function spanOfAll(tokens: readonly Token[]): Span | null {
  const first = tokens[0];
  const last = tokens.at(-1);
  return first === undefined || last === undefined ? null : joinSpans(first.span, last.span);
}
