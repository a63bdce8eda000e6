import { changeOf } from '../language/changes.ts';
import { declare } from '../language/declare.ts';
import { readFenceHeader } from '../language/fence-header.ts';
import { tokenize } from '../language/lexer.ts';
import {
  blockKey,
  blockOf,
  type Declarations,
  labelKey,
  NO_DECLARATIONS,
  type NoteNames,
} from '../language/names.ts';
import { type Block, parseBlock, type Statement } from '../language/parser.ts';
import { tokensText } from '../language/statement-dress.ts';
import { joinSpans, type Span, spanOf, type Token } from '../language/syntax.ts';
import { columnName } from '../language/table-header.ts';
import { headAndRows, type TableLine } from '../language/table-line.ts';
import { findTerm } from '../language/terms.ts';
import { namesUsedIn } from './names-used.ts';
import { blockPlace, labelPlace, type NamedPlace, type Naming, placeOfName } from './naming.ts';
import type { NotePart } from './note-part.ts';

/**
 * All places of a part of a note where blocks, rows and quantities of its own are named, in its order.
 *
 *     density rho = m / v = 7.80 g/cm^3        observed reading of dish of spherometer
 *     ^^^^^^^ ^^^   ^   ^                                          ^^^^    ^^^^^^^^^^^
 */
export function namedPlaces(part: NotePart): readonly NamedPlace[] {
  const blocks = part.fences.map(parseBlock);
  const declared = blocks.map(block => declare(block, headerOf(block)));
  const note = new Map<string, Declarations>();
  for (const names of declared) {
    const key = names.block === null ? '' : blockKey(names.block);
    if (key !== '' && !note.has(key)) note.set(key, names);
  }
  const places: NamedPlace[] = [];
  for (const [index, block] of blocks.entries()) {
    const naming = namingIn(part, declared[index]!, declared, note);
    const { name, nameSpan } = headerOf(block);
    if (name !== null && nameSpan !== null) add(places, blockPlace(naming, nameSpan, name, true));
    for (const statement of block.statements) addStatement(places, naming, statement);
  }
  const prose = namingIn(part, NO_DECLARATIONS, declared, note);
  addProse(places, part, prose);
  for (const { name, opening } of part.comments) {
    const at = name === null ? -1 : part.text.indexOf(name, opening.start);
    if (name === null || at === -1 || opening.end < at + name.length) continue;
    add(places, blockPlace(prose, spanOf(at, at + name.length), name, false));
  }
  places.sort((a, b) => a.span.start - b.span.start);
  return places.filter(({ span }, at) => span.start !== places[at - 1]?.span.start);
}

function namingIn(
  part: NotePart,
  here: Declarations,
  declared: readonly Declarations[],
  note: NoteNames,
): Naming {
  return {
    here,
    declared,
    note,
    check: part.check,
  };
}

function headerOf({ fence }: Block) {
  return readFenceHeader(fence.info, fence.infoSpan.start);
}

function add(places: NamedPlace[], place: NamedPlace | null): void {
  if (place !== null) places.push(place);
}

function addStatement(places: NamedPlace[], naming: Naming, statement: Statement): void {
  switch (statement.kind) {
    case 'words':
      return;
    case 'table':
      addTable(places, naming, statement.lines);
      return;
    case 'record':
    case 'claim':
      addLine(places, naming, statement);
  }
}

/** Records whose values are words of the trade. */
const WORDS_ONLY: ReadonlySet<string> = new Set([
  'instrument',
  'waive',
  'closed',
  'error rule',
  'vernier runs',
]);

function addLine(
  places: NamedPlace[],
  naming: Naming,
  { left, leftText, leftSide, right, kind }: Exclude<Statement, { readonly kind: 'words' | 'table' }>,
): void {
  const term = leftSide.kind === 'term' ? leftSide.term.name : findTerm(leftText)?.name;
  if (term === 'uses') {
    const span = spanOfAll(right);
    if (span !== null) add(places, blockPlace(naming, span, tokensText(right), false));
    return;
  }
  const declaresIt = (leftSide.kind === 'term' || leftSide.kind === 'reference') && leftSide.symbol;
  if (leftSide.kind === 'own') addDeclared(places, naming, left, leftSide.symbol, leftSide.words);
  else if (naming.here.own.has(leftText)) addDeclared(places, naming, left, leftText, '');
  else {
    places.push(...namesUsedIn(naming, left, null));
    if (declaresIt) addDeclared(places, naming, left, declaresIt, '');
  }
  if (term === undefined || !WORDS_ONLY.has(term)) places.push(...namesUsedIn(naming, right, kind));
}

/** A quantity where its line begins: `wall thickness t` names it twice. */
function addDeclared(
  places: NamedPlace[],
  naming: Naming,
  left: readonly Token[],
  symbol: string | null,
  words: string,
): void {
  const bare = left.filter(token => token.kind === 'word' || token.text === '-');
  const last = bare.at(-1);
  const change = symbol === null ? null : changeOf(symbol);
  if (change !== null && last?.text === change.of) {
    const isOwn = naming.here.own.has(change.name);
    const whole = spanOfAll(bare.slice(-2));
    if (isOwn && whole !== null) add(places, placeOfName(naming, whole, change.name, true));
    else add(places, placeOfName(naming, last.span, change.of, false));
    bare.splice(-2);
  }
  if (symbol !== null && last?.text === symbol) {
    if (!places.some(({ span }) => span.start === last.span.start))
      add(places, placeOfName(naming, last.span, symbol, true));
    bare.pop();
  }
  const span = spanOfAll(bare);
  if (words !== '' && span !== null) add(places, placeOfName(naming, span, words, true));
}

function addTable(places: NamedPlace[], naming: Naming, lines: readonly TableLine[]): void {
  const table = headAndRows(lines);
  if (table === null) return;
  const columns = table.head.cells.map(cell => columnName(cell, naming.here.own));
  for (const [index, column] of columns.entries()) {
    const { tokens } = table.head.cells[index]!;
    if (column.kind === 'own')
      addDeclared(places, naming, tokens.slice(0, nameLength(tokens)), column.name, column.words);
  }
  for (const { cells } of table.rows) {
    for (const [index, cell] of cells.entries()) {
      const column = columns[index];
      if (column?.kind === 'label') {
        const row = naming.here.labels.get(labelKey(cell.text));
        if (row !== undefined)
          places.push(
            labelPlace(naming, naming.here, row, {
              spelling: cell.text,
              span: cell.span,
              isDeclaration: true,
            }),
          );
      } else places.push(...namesUsedIn(naming, cell.tokens, column?.kind === 'own' ? 'record' : 'claim'));
    }
  }
}

/** The words of a column's head before its unit: `T (s)`, `T / s`. */
function nameLength(tokens: readonly Token[]): number {
  const at = tokens.findIndex(token => token.kind === 'operator' && token.text !== '-');
  return at === -1 ? tokens.length : at;
}

/**
 * What a claim names belongs to its block, and so do the names of its formula. The check of the part is looked at only where
 * there is a code span that may claim something.
 */
function addProse(places: NamedPlace[], part: NotePart, naming: Naming): void {
  if (part.codeSpans.length === 0) return;
  const { text, measurements, fences } = part.check();
  for (const { claims } of measurements.slice(fences)) {
    for (const { span, signSpan, subject } of claims) {
      const { tokens } = tokenize(text.slice(span.start, span.end), span.start);
      const here = naming.note.get(blockKey(blockOf(subject) ?? '')) ?? naming.here;
      const right = tokens.filter(token => signSpan.end <= token.span.start);
      places.push(...namesUsedIn(naming, tokens.slice(0, tokens.length - right.length), 'claim'));
      places.push(...namesUsedIn({ ...naming, here }, right, 'claim'));
    }
  }
}

function spanOfAll(tokens: readonly Token[]): Span | null {
  const first = tokens[0];
  const last = tokens.at(-1);
  return first === undefined || last === undefined ? null : joinSpans(first.span, last.span);
}
