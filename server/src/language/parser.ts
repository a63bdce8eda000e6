import { type LeftSide, readLeftSide, withBracketedSymbol, withoutComma } from './left-side.ts';
import { withLeftUnit } from './left-unit.ts';
import { tokenize } from './lexer.ts';
import { readMeanNames } from './mean-names.ts';
import type { Problem } from './problem.ts';
import { tokensText, trimDress, withNumber } from './statement-dress.ts';
import { type Fence, type FenceLine, joinSpans, type Span, spanOf, type Token } from './syntax.ts';
import { isTableLine, readTableLine, type TableLine } from './table-line.ts';

/** A statement as typed. What its words mean is not decided here. */
export type Statement =
  /** `name : value`, whatever stands in the value. */
  | {
      readonly kind: 'record';
      readonly left: readonly Token[];
      readonly leftText: string;
      readonly leftSide: LeftSide;
      readonly sign: Span;
      readonly right: readonly Token[];
      readonly span: Span;
    }
  /** `name = link = link`. */
  | {
      readonly kind: 'claim';
      readonly left: readonly Token[];
      readonly leftText: string;
      readonly leftSide: LeftSide;
      readonly sign: Span;
      readonly right: readonly Token[];
      readonly span: Span;
    }
  | { readonly kind: 'table'; readonly lines: readonly TableLine[]; readonly span: Span }
  /** Neither colon nor equals sign: a choice, a sentence; with the number that may stand before it. */
  | { readonly kind: 'words'; readonly tokens: readonly Token[]; readonly span: Span };

/** A fence as typed, statement by statement, whatever is broken. */
export interface Block {
  readonly fence: Fence;
  readonly statements: readonly Statement[];
  readonly problems: readonly Problem[];
}

/** Stated limits of a block; each is passed with a finding, never with a stall. */
export const LIMITS = { lineLength: 20_000, statements: 2000, rows: 1000 } as const;

/**
 * Takes a fence apart into records, claims, tables and words, line by line.
 *
 *     observed reading = 2.45 cm + 17 × 0.002 cm = 2.484 cm   # as read
 *     ^^^^^^^^^^^^^^^^ ^ ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^  ^^^^^^^^^
 *     left             sign right                             comment, dropped
 *
 * A record's colon comes before any equals sign. A line that begins with `=` continues the one above. A line that
 * passes a limit is one problem; all others are still read.
 */
export function parseBlock(fence: Fence): Block {
  const statements: Statement[] = [];
  const problems: Problem[] = [];
  let table: TableLine[] = [];
  let rows = 0;
  const endTable = (): void => {
    if (table.length > 0) statements.push(tableOf(table));
    table = [];
  };
  for (const line of fence.lines) {
    if (statements.length >= LIMITS.statements) {
      problems.push(
        limit(
          line,
          `a block may hold ${LIMITS.statements} statements; this line and what follows it are not read`,
        ),
      );
      break;
    }
    if (line.text.length > LIMITS.lineLength) {
      problems.push(
        limit(line, `this line is longer than ${LIMITS.lineLength} characters, so it is not read`),
      );
      continue;
    }
    if (isTableLine(line)) {
      rows += 1;
      if (rows === LIMITS.rows + 3) {
        problems.push(
          limit(line, `a table may hold ${LIMITS.rows} rows; this row and what follows it are not read`),
        );
      }
      if (rows < LIMITS.rows + 3) table.push(readTableLine(line, table[0] ?? null));
      continue;
    }
    endTable();
    rows = 0;
    readLine(line, statements);
  }
  endTable();
  return { fence, statements: readMeanNames(statements), problems };
}

function readLine(line: FenceLine, statements: Statement[]): void {
  const all = tokenize(line.text, line.start).tokens;
  const first = all[0];
  if (first === undefined) return;
  if (isSign(first, '=') || isSign(first, '≈')) {
    const above = statements[statements.length - 1];
    if (above !== undefined && (above.kind === 'claim' || above.kind === 'record')) {
      statements[statements.length - 1] = {
        ...above,
        right: [...above.right, ...trimDress(all, false)],
        span: joinSpans(above.span, tokensSpan(all)),
      };
      return;
    }
    if (above?.kind === 'words' && isLoneName(above.tokens)) {
      statements[statements.length - 1] = statementOf([...above.tokens, ...trimDress(all, false)]);
      return;
    }
  }
  for (const tokens of splitStatements(trimDress(all, true))) {
    if (tokens.length === 0) continue;
    const statement = statementOf(tokens);
    // The number before a sentence is dress; before a value it may name a choice.
    statements.push(statement.kind === 'words' ? statementOf(withNumber(all, tokens)) : statement);
  }
}

/** Whether a line is a name and nothing else, a term or a symbol, so that the chain below it is about that. */
function isLoneName(tokens: readonly Token[]): boolean {
  const left = readLeftSide(tokens);
  return left.kind === 'term'
    ? left.term.kind === 'computed' || left.term.kind === 'division'
    : left.kind === 'own' &&
        left.symbol !== null &&
        (tokens.length === 1 || left.symbol.length === 1) &&
        tokens.every(({ kind }) => kind === 'word');
}

export function statementOf(tokens: readonly Token[]): Statement {
  const span = tokensSpan(tokens);
  const at = signIndex(tokens);
  if (at === -1) return { kind: 'words', tokens, span };
  const sign = tokens[at]!;
  const { left: named, right } = withLeftUnit(tokens.slice(0, at), tokens.slice(at + 1));
  const left = withoutComma(named);
  return {
    kind: sign.text === ':' ? 'record' : 'claim',
    left,
    leftText: tokensText(left),
    leftSide: withBracketedSymbol(readLeftSide(left), left, right),
    sign: sign.span,
    right,
    span,
  };
}

/** The first colon or equals sign outside brackets. */
function signIndex(tokens: readonly Token[]): number {
  let depth = 0;
  for (let index = 0; index < tokens.length; index++) {
    const token = tokens[index]!;
    if (token.kind !== 'operator') continue;
    if (token.text === '(') depth += 1;
    else if (token.text === ')') depth -= 1;
    else if (depth <= 0 && (token.text === ':' || token.text === '=' || token.text === '≈')) return index;
  }
  return -1;
}

/** `MSR: 2.4 cm, VC: 6` is two statements: a comma or semicolon that a name with its sign follows parts them. */
function splitStatements(tokens: readonly Token[]): readonly (readonly Token[])[] {
  if (!hasSeparator(tokens)) return [tokens];
  const signs = tokens.filter(token => isSign(token, '=') || isSign(token, ':'));
  // Text before the first comma is no statement of its own: `the dial, reading = 4.12 mm`.
  const comma = tokens.findIndex(token => isSign(token, ',') || isSign(token, ';'));
  if (
    signs.length < 2 ||
    signIndex(tokens.slice(0, Math.max(comma, 0))) === -1 ||
    /^(?:waive|closed|at zero)\b/i.test(tokensText(tokens.slice(0, 2)))
  )
    return [tokens];
  const parts: (readonly Token[])[] = [];
  let start = 0;
  for (let index = 1; index < tokens.length; index++) {
    if ((isSign(tokens[index]!, ',') || isSign(tokens[index]!, ';')) && beginsStatement(tokens, index + 1)) {
      parts.push(tokens.slice(start, index));
      start = index + 1;
    }
  }
  parts.push(tokens.slice(start));
  return parts;
}

/** Whether a comma or a semicolon stands among the tokens. */
export function hasSeparator(tokens: readonly Token[]): boolean {
  for (const token of tokens)
    if (token.kind === 'operator' && (token.text === ',' || token.text === ';')) return true;
  return false;
}

function beginsStatement(tokens: readonly Token[], from: number): boolean {
  let index = from;
  while (
    index < tokens.length &&
    index - from < 8 &&
    (tokens[index]!.kind === 'word' || isSign(tokens[index]!, '.'))
  )
    index += 1;
  const next = tokens[index];
  return index > from && next !== undefined && (isSign(next, '=') || isSign(next, ':'));
}

export function isSign(token: Token, text: string): boolean {
  return token.kind === 'operator' && token.text === text;
}

/** From the first token's start to the last one's end. */
export function tokensSpan(tokens: readonly Token[]): Span {
  const first = tokens[0];
  const last = tokens[tokens.length - 1];
  return first === undefined || last === undefined ? spanOf(0, 0) : spanOf(first.span.start, last.span.end);
}

function tableOf(lines: readonly TableLine[]): Statement {
  const first = lines[0]!;
  const last = lines[lines.length - 1]!;
  return { kind: 'table', lines, span: joinSpans(first.span, last.span) };
}

function limit(line: FenceLine, message: string): Problem {
  return {
    rule: 'limit',
    span: spanOf(line.start, line.start + Math.min(line.text.length, 80)),
    message,
    fixes: [],
  };
}
