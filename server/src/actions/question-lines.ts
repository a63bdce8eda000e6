import { readBareOption } from '../language/bare-choice.ts';
import { splitOptions } from '../language/interpret-question.ts';
import { type NumberedChoice, numberedChoices } from '../language/numbered-choices.ts';
import { isSign, parseBlock, type Statement } from '../language/parser.ts';
import type { Fence, Span, Token } from '../language/syntax.ts';
import { findTerm } from '../language/terms.ts';

/** A choice or the key as it stands in a block, written out or not. */
export interface QuestionLine {
  /** The choice's letter; null for the key. */
  readonly letter: string | null;
  /** Whether nothing, or only a question mark or dots, stands where the value belongs. */
  readonly isEmpty: boolean;
  /** The whole statement. */
  readonly span: Span;
  /** Where the value stands, or belongs, with the blanks before it. */
  readonly valueSpan: Span;
  /** What has to stand between the letter and the value. */
  readonly lead: string;
}

/** The choices of a block and its key, in their order; of two with one letter the first. */
export function questionLines(text: string, fence: Fence): readonly QuestionLine[] {
  const lines = new Map<string | null, QuestionLine>();
  const { statements } = parseBlock(fence);
  const choices = numberedChoices(statements);
  for (const statement of statements) {
    const choice = choices.get(statement);
    const line = choice === undefined ? questionLine(text, statement) : numberedLine(text, statement, choice);
    if (line !== null && !lines.has(line.letter)) lines.set(line.letter, line);
  }
  return [...lines.values()];
}

function numberedLine(text: string, { span }: Statement, { letter, value }: NumberedChoice): QuestionLine {
  const from = value[0]?.span.start ?? span.end;
  return lineOf(text, letter, value, span, from, value.length === 0 ? ' ' : '');
}

function questionLine(text: string, statement: Statement): QuestionLine | null {
  switch (statement.kind) {
    case 'table':
      return null;
    case 'words':
      return wordsLine(text, statement.tokens, statement.span);
    case 'record':
    case 'claim': {
      const { leftSide, sign, right, span } = statement;
      const isKey = leftSide.kind === 'term' && leftSide.term.name === 'answer';
      if (leftSide.kind !== 'option' && !isKey) return null;
      const letter = leftSide.kind === 'option' ? leftSide.letter : null;
      return lineOf(text, letter, right, span, sign.end, ' ');
    }
  }
}

function wordsLine(text: string, tokens: readonly Token[], span: Span): QuestionLine | null {
  const [first, ...rest] = tokens;
  if (first === undefined || splitOptions(tokens) !== null) return null;
  if (rest.length === 0 && /^[A-Ha-h]$/.test(first.text)) {
    // The point behind a lone letter ends the line, and is no token.
    const end = first.span.end + (/[.)]/.test(text[first.span.end] ?? '') ? 1 : 0);
    return lineOf(text, first.text.toUpperCase(), [], { start: span.start, end }, end, ' ');
  }
  const option = readBareOption(tokens);
  if (option !== null) {
    const dress = tokens[tokens.length - option.value.length - 1] ?? first;
    const lead = isSign(dress, ')') || isSign(dress, '.') ? ' ' : ': ';
    return lineOf(text, option.letter, option.value, span, dress.span.end, lead);
  }
  const isKey = findTerm(first.text)?.name === 'answer' && rest.length > 0;
  return isKey ? lineOf(text, null, rest, span, first.span.end, ' ') : null;
}

function lineOf(
  text: string,
  letter: string | null,
  value: readonly Token[],
  span: Span,
  from: number,
  lead: string,
): QuestionLine {
  const last = value[value.length - 1];
  const isEmpty = value.every(token => token.kind === 'operator' && /^[?….,_-]$/.test(token.text));
  const blanks = /^[ \t]*(?![^\r\n])/.exec(text.slice(from))?.[0].length ?? 0;
  const end = last === undefined ? from + blanks : last.span.end;
  return { letter, isEmpty, span, valueSpan: { start: from, end }, lead };
}
