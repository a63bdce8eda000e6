import { unitWord } from '../engine/unit.ts';
import { tokenize } from '../language/lexer.ts';
import { nameTable } from '../language/name-table.ts';
import type { Statement } from '../language/parser.ts';
import type { FenceLine, Span, Token } from '../language/syntax.ts';
import { columnName } from '../language/table-header.ts';
import { headAndRows } from '../language/table-line.ts';
import { findTerm } from '../language/terms.ts';
import { isUnitAt, namesUsedIn } from './names-used.ts';
import type { NamedKind, Naming } from './naming.ts';
import { type NearBlocks, namingAt } from './near-blocks.ts';

/** How an editor may colour a word or sign of a block. The order is that of the legend. */
export const TOKEN_KINDS = [
  'keyword', // terms of the trade
  'variable', // quantities of one's own
  'number',
  'type', // units
  'operator',
  'comment',
  'string', // labels of rows
  'namespace', // names of blocks
  'function', // sqrt, sin
] as const;

export type TokenKindName = (typeof TOKEN_KINDS)[number];

export interface KindSpan {
  readonly kind: TokenKindName;
  readonly span: Span;
}

/** What the words, numbers and signs of one block are, in its order; no two overlap, and each is on one line. */
export function tokenKinds(near: NearBlocks, index: number): readonly KindSpan[] {
  const naming = namingAt(near, index);
  const { fence, statements } = near.blocks[index]!;
  const found = new Map<number, KindSpan>();
  // What is said first of a place holds.
  const say = (kind: TokenKindName, span: Span): void => {
    if (span.start < span.end && !found.has(span.start)) found.set(span.start, { kind, span });
  };
  for (const statement of statements) sayStatement(naming, statement, say);
  for (const line of fence.lines) {
    for (const comment of commentOf(line)) say('comment', comment);
  }
  return withoutOverlaps([...found.values()].sort((a, b) => a.span.start - b.span.start));
}

type Say = (kind: TokenKindName, span: Span) => void;

function commentOf({ text, start }: FenceLine): readonly Span[] {
  if (!text.includes('#') || /^\s*\|/.test(text)) return [];
  const { comment } = tokenize(text, start);
  return comment === null ? [] : [comment];
}

function withoutOverlaps(spans: readonly KindSpan[]): readonly KindSpan[] {
  let end = 0;
  return spans.filter(({ span }) => {
    if (span.start < end) return false;
    end = span.end;
    return true;
  });
}

/** Records whose values are words of the trade. */
const WORDS_ONLY: ReadonlySet<string> = new Set(['instrument', 'waive', 'error rule', 'vernier runs']);

function sayStatement(naming: Naming, statement: Statement, say: Say): void {
  switch (statement.kind) {
    case 'words':
      return;
    case 'table': {
      const table = headAndRows(statement.lines);
      const columns = table?.head.cells.map(cell => columnName(cell, naming.here.own)) ?? [];
      for (const line of statement.lines) {
        if (line.isRule) continue;
        for (const [index, cell] of line.cells.entries()) {
          const column = columns[index]?.kind;
          if (line === table?.head) sayLeft(naming, cell.tokens, column === 'own', say);
          else if (column === 'label' && cell.text !== '') say('string', cell.span);
          else sayFormula(naming, cell.tokens, column === 'own' ? 'record' : 'claim', say);
        }
      }
      return;
    }
    case 'record':
    case 'claim': {
      const { left, leftText, leftSide, right, sign, kind } = statement;
      const term = leftSide.kind === 'term' ? leftSide.term.name : (findTerm(leftText)?.name ?? '');
      sayLeft(naming, left, leftSide.kind === 'own' || naming.here.own.has(leftText), say);
      say('operator', sign);
      const behind = term === 'uses' ? spanOfAll(right) : null;
      if (behind !== null) say('namespace', behind);
      else if (WORDS_ONLY.has(term)) sayNumbers(right, say);
      else sayFormula(naming, right, kind, say);
    }
  }
}

/** What a statement or a column is about. */
function sayLeft(naming: Naming, tokens: readonly Token[], isOwn: boolean, say: Say): void {
  if (!isOwn) {
    sayFormula(naming, tokens, null, say);
    for (const token of tokens) if (token.kind === 'word') say('keyword', token.span);
    return;
  }
  for (const [at, token] of tokens.entries()) {
    // `T (s)`, `T / s`
    const isUnit = at > 0 && tokens[at - 1]!.kind === 'operator' && unitWord(token.text) !== null;
    if (token.kind === 'word') say(isUnit ? 'type' : 'variable', token.span);
    else if (token.kind === 'number') say('number', token.span);
  }
}

const KIND_OF_NAME: Readonly<Record<NamedKind, TokenKindName>> = {
  block: 'namespace',
  label: 'string',
  quantity: 'variable',
};

function sayFormula(
  naming: Naming,
  tokens: readonly Token[],
  side: 'record' | 'claim' | null,
  say: Say,
): void {
  for (const { kind, span } of namesUsedIn(naming, tokens, side)) say(KIND_OF_NAME[kind], span);
  const table = nameTable(naming);
  for (let at = 0; at < tokens.length; at++) {
    const found = table.longestName(tokens, at);
    const subject = found === null ? undefined : table.subjects.get(found.key);
    if (found === null || subject === undefined || isUnitAt(naming, tokens, at, subject, side)) continue;
    for (const token of tokens.slice(at, at + found.length)) {
      if (token.kind === 'word') say('keyword', token.span);
    }
    at += found.length - 1;
  }
  sayNumbers(tokens, say);
}

const FUNCTIONS = /^(?:sqrt|a?r?c?(?:sin|cos|tan)|abs|mean|mod)$/;

function sayNumbers(tokens: readonly Token[], say: Say): void {
  for (const [at, { kind, text, span }] of tokens.entries()) {
    switch (kind) {
      case 'number':
      case 'superscript':
        say('number', span);
        break;
      case 'prime':
      case 'degree':
      case 'percent':
        say('type', span);
        break;
      case 'operator':
        say('operator', span);
        break;
      case 'word':
        if (text === 'pi') say('number', span);
        else if (tokens[at + 1]?.text === '(' && FUNCTIONS.test(text)) say('function', span);
        else if (isAfterNumber(tokens, at) && unitWord(text) !== null) say('type', span);
        break;
    }
  }
}

/** `2 g/cm^3`, `5 kg m`: behind a number, and behind a unit. */
function isAfterNumber(tokens: readonly Token[], at: number): boolean {
  for (let before = at - 1; before >= 0; before--) {
    const token = tokens[before]!;
    if (token.kind === 'number') return tokens[before - 1]?.text !== '^' || before < at - 1;
    const goesOn =
      token.kind === 'superscript' ||
      token.text === '/' ||
      token.text === '^' ||
      (token.kind === 'word' && unitWord(token.text) !== null);
    if (!goesOn) return false;
  }
  return false;
}

function spanOfAll(tokens: readonly Token[]): Span | null {
  const first = tokens[0];
  const last = tokens.at(-1);
  return first === undefined || last === undefined ? null : { start: first.span.start, end: last.span.end };
}
