import { type Instrument, instrumentNamed } from '../language/instruments.ts';
import type { Claim, Subject } from '../language/measurement.ts';
import { nameTable } from '../language/name-table.ts';
import { resolveName } from '../language/names.ts';
import type { Statement } from '../language/parser.ts';
import { tokensText } from '../language/statement-dress.ts';
import { joinSpans, type Span, type Token } from '../language/syntax.ts';
import { type Column, columnName } from '../language/table-header.ts';
import { headAndRows, type TableLine } from '../language/table-line.ts';
import { findTerm, type Term, termNamed } from '../language/terms.ts';
import { isUnitAt } from './names-used.ts';
import type { Naming } from './naming.ts';
import { type NearBlocks, namingAt } from './near-blocks.ts';

/** What stands at a place of a block. */
export type Pointed =
  /** A claim; `isName` where the place is on what it claims, not on how it is worked out. */
  | {
      readonly kind: 'claim';
      readonly block: number;
      readonly claim: Claim;
      readonly isName: boolean;
      readonly span: Span;
    }
  /** A name: a term, a quantity of one's own, a reference; `subject` null for what has no value (a scale). */
  | {
      readonly kind: 'name';
      readonly block: number;
      readonly text: string;
      readonly subject: Subject | null;
      readonly term: Term | null;
      readonly span: Span;
    }
  | { readonly kind: 'instrument'; readonly instrument: Instrument; readonly span: Span };

/** Says what stands at a place of some blocks, or of the claims in the prose about them; null for nothing that has a meaning. */
export function pointedAt(near: NearBlocks, offset: number): Pointed | null {
  const at = near.fences.findIndex(({ span }) => holds(span, offset));
  if (at === -1) return claimAt(near, near.fences.length, offset);
  const statement = near.blocks[at]!.statements.find(({ span }) => holds(span, offset));
  if (statement === undefined) return null;
  switch (statement.kind) {
    case 'words':
      return null;
    case 'table':
      return inTable(near, at, statement.lines, offset);
    case 'record':
    case 'claim':
      return inLine(near, at, statement, offset);
  }
}

function holds(span: Span, offset: number): boolean {
  return span.start <= offset && offset <= span.end;
}

function claimAt(near: NearBlocks, block: number, offset: number): Pointed | null {
  const claim = near.check().measurements[block]?.claims.find(({ span }) => holds(span, offset));
  if (claim === undefined) return null;
  const isName = holds(claim.subjectSpan, offset);
  return { kind: 'claim', block, claim, isName, span: claim.span };
}

/** Records whose values are words of the trade. */
const WORDS_ONLY: ReadonlySet<string> = new Set(['waive', 'closed', 'error rule', 'vernier runs', 'turned']);

function inLine(
  near: NearBlocks,
  block: number,
  statement: Extract<Statement, { readonly kind: 'record' | 'claim' }>,
  offset: number,
): Pointed | null {
  const { left, leftText, leftSide, right, kind } = statement;
  const naming = namingAt(near, block);
  if (offset <= statement.sign.start) {
    const claim = claimAt(near, block, offset);
    if (claim !== null) return claim;
    const span = spanOfAll(left);
    return span === null ? null : leftName(naming, block, leftSide, leftText, span);
  }
  const term = leftSide.kind === 'term' ? leftSide.term.name : (findTerm(leftText)?.name ?? '');
  const whole = spanOfAll(right);
  if (term === 'instrument' && whole !== null && holds(whole, offset)) {
    const instrument = instrumentNamed(tokensText(right));
    return instrument === null ? null : { kind: 'instrument', instrument, span: whole };
  }
  if (WORDS_ONLY.has(term)) return null;
  return nameIn(naming, block, right, kind, offset) ?? claimAt(near, block, offset);
}

function leftName(
  naming: Naming,
  block: number,
  left: Extract<Statement, { readonly kind: 'record' }>['leftSide'],
  text: string,
  span: Span,
): Pointed | null {
  switch (left.kind) {
    case 'term':
      return { kind: 'name', block, text, span, ...meaningOf(naming, left.term.name, left.term) };
    case 'divisions':
      return {
        kind: 'name',
        block,
        text: left.division,
        span,
        ...meaningOf(naming, left.division, termNamed(left.division)),
      };
    case 'own': {
      const name = left.symbol ?? left.words;
      return { kind: 'name', block, text, span, ...meaningOf(naming, name, null) };
    }
    case 'multiple':
      return { kind: 'name', block, text: left.name, span, ...meaningOf(naming, left.name, null) };
    case 'reference':
      return { kind: 'name', block, text: left.text, span, ...meaningOf(naming, left.text, null) };
    case 'option':
      return { kind: 'name', block, text, span, subject: null, term: termNamed('option') };
    case 'none':
      return null;
  }
}

function meaningOf(
  naming: Naming,
  name: string,
  term: Term | null,
): { readonly subject: Subject | null; readonly term: Term | null } {
  const subject = resolveName(name, naming);
  return { subject, term: term ?? (subject === null ? null : termOfSubject(subject)) };
}

/** The word of the trade that a subject is; null for a quantity of one's own. */
export function termOfSubject(subject: Subject): Term | null {
  switch (subject.kind) {
    case 'term':
      return termNamed(subject.term);
    case 'division':
      return termNamed(subject.division);
    case 'statistic':
      return termNamed(subject.statistic);
    case 'count':
    case 'own':
    case 'unknown':
      return null;
  }
}

/** The name at a place of a formula. */
function nameIn(
  naming: Naming,
  block: number,
  tokens: readonly Token[],
  side: 'record' | 'claim',
  offset: number,
): Pointed | null {
  const table = nameTable(naming);
  for (let at = 0; at < tokens.length; at++) {
    const found = table.longestName(tokens, at);
    const subject = found === null ? undefined : table.subjects.get(found.key);
    if (found === null || subject === undefined) continue;
    const span = spanOfAll(tokens.slice(at, at + found.length))!;
    if (holds(span, offset))
      return isUnitAt(naming, tokens, at, subject, side)
        ? null
        : { kind: 'name', block, text: found.text, subject, term: termOfSubject(subject), span };
    at += found.length - 1;
  }
  return null;
}

function inTable(
  near: NearBlocks,
  block: number,
  lines: readonly TableLine[],
  offset: number,
): Pointed | null {
  const table = headAndRows(lines);
  const line = lines.find(({ span }) => holds(span, offset));
  const index = line?.cells.findIndex(({ span }) => holds(span, offset)) ?? -1;
  const head = table?.head.cells[index];
  const cell = line?.cells[index];
  if (line === undefined || cell === undefined || head === undefined || line.isRule || cell.text === '')
    return null;
  const naming = namingAt(near, block);
  const column = columnName(head, naming.here.own);
  const ofColumn = columnMeaning(naming, column);
  if (line === table?.head)
    return ofColumn && { kind: 'name', block, text: cell.text, span: cell.span, ...ofColumn };
  const claim = claimAt(near, block, offset);
  if (claim !== null)
    return nameIn(naming, block, cell.tokens, 'claim', offset) ?? { ...claim, span: cell.span };
  const row = near.check().measurements[block]?.rows.find(each => holds(each.span, offset));
  if (ofColumn === null || ofColumn.subject === null || row === undefined) return null;
  const { subject, term } = ofColumn;
  const inRow = subject.kind === 'term' || subject.kind === 'own' ? { ...subject, row: row.number } : subject;
  return { kind: 'name', block, text: head.text, subject: inRow, term, span: cell.span };
}

function columnMeaning(
  naming: Naming,
  column: Column,
): { readonly subject: Subject | null; readonly term: Term | null } | null {
  switch (column.kind) {
    case 'label':
      return { subject: null, term: termNamed('label') };
    case 'term':
      return meaningOf(naming, column.term.name, column.term);
    case 'own':
      return meaningOf(naming, column.name, null);
    case 'counter':
    case 'circular part':
    case 'unknown':
      return null;
  }
}

function spanOfAll(tokens: readonly Token[]): Span | null {
  const first = tokens[0];
  const last = tokens.at(-1);
  return first === undefined || last === undefined ? null : joinSpans(first.span, last.span);
}
