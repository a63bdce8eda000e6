import { dimension, isPlain, sameDimension } from '../engine/dimension.ts';
import { evaluate, NO_VALUE } from '../engine/evaluation.ts';
import type { Quantity } from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import { parseExpression } from './expression-parser.ts';
import { functionNamed } from './function-words.ts';
import { type Block, isSign, type Statement } from './parser.ts';
import { type NameTable, NO_WORDS } from './parser-state.ts';
import type { Token } from './syntax.ts';
import { columnName } from './table-header.ts';
import { type Cell, headAndRows, type TableLine } from './table-line.ts';
import { findTerm, type Term } from './terms.ts';

type Signed = Exclude<Statement, { readonly kind: 'table' | 'words' }>;

/**
 * Which of the letters S, V, n and N are quantities of one's own in a block, and no division of a scale.
 *
 *     V: 2.45 V ± 0.05 V      its unit is that of no length
 *     V = pi r^2 h            no line of the block speaks of a scale
 *     n = … = 1.515           no line of a scale has such a number
 *     N: any whole number     a letter for a number
 *
 * `V = 0.48 mm` is the vernier scale division, and so is `V = 0.9 S`.
 */
export function ownLetters(block: Block): ReadonlySet<string> {
  const own = new Set<string>();
  const aboutScales = block.statements.some(speaksOfScales);
  for (const statement of block.statements) {
    if (statement.kind === 'words') continue;
    if (statement.kind === 'table') {
      for (const letter of ownColumns(statement.lines, aboutScales)) own.add(letter);
      continue;
    }
    const letter = loneLetter(statement);
    if (letter !== null && isOwn(letter, statement, aboutScales, own)) own.add(letter);
  }
  return own;
}

/** The letter that stands alone before a statement's sign, where it also means something about a scale. */
function loneLetter({ left, leftText }: Signed): string | null {
  return left.length === 1 && LETTERS.has(leftText) ? leftText : null;
}

const LETTERS = new Set(['S', 'V', 'n', 'N']);

function isOwn(letter: string, statement: Signed, aboutScales: boolean, own: ReadonlySet<string>): boolean {
  const { right } = statement;
  if (right[0]?.text.toLowerCase() === 'any')
    return isCount(letter) || !/^(?:length|angle)$/i.test(right[1]?.text ?? '');
  // N by itself means nothing but the number of divisions, which the scales tell.
  if (letter === 'N') return false;
  const links = linksOf(right);
  const last = links[links.length - 1];
  if (last === undefined) return false;
  const value = statedValue(last);
  if (value === null) return isOwnFormula(last, aboutScales, own);
  if (isPlain(value.dimension)) {
    if (!aboutScales) return true;
    const number = S.realValue(value.scalar);
    const isWorkedOut = links.length > 1 || last.some(isFunction);
    return letter === 'n' && isWorkedOut && number !== null && !R.isInteger(number);
  }
  if (!isLengthOrAngle(value)) return true;
  // No scale's division has an error of its own.
  return !aboutScales && (letter === 'n' || right.some(token => isSign(token, '±')));
}

function isCount(letter: string): boolean {
  return letter === 'n' || letter === 'N';
}

/** The division of a scale is made of other divisions: of no powers, sines or roots. */
function isOwnFormula(link: readonly Token[], aboutScales: boolean, own: ReadonlySet<string>): boolean {
  if (namesTerm(link, own)) return false;
  return (
    !aboutScales ||
    link.some(token => token.kind === 'superscript' || token.text === '^' || isFunction(token))
  );
}

function isFunction(token: Token): boolean {
  return token.kind === 'word' && functionNamed(token.text) !== null;
}

/** Links, without the `?` that asks for the value. */
function linksOf(right: readonly Token[]): readonly (readonly Token[])[] {
  const links: Token[][] = [[]];
  for (const token of right) {
    if (isSign(token, '=') || isSign(token, '≈')) links.push([]);
    else links[links.length - 1]!.push(token);
  }
  return links.filter(link => link.length > 0 && !isSign(link[0]!, '?'));
}

/** The value of a link or of the first of a list, where it names nothing. */
function statedValue(link: readonly Token[]): Quantity | null {
  const end = link.findIndex(token => isSign(token, ',') || isSign(token, ';'));
  const { expression } = parseExpression(end === -1 ? link : link.slice(0, end), {
    names: NO_NAMES,
    asNames: NO_WORDS,
    mode: 'link',
  });
  const value = expression === null ? null : evaluate(expression, () => NO_VALUE);
  return value?.ok === true ? value.quantity : null;
}

const NO_NAMES: NameTable = { longestName: () => null };

function isLengthOrAngle({ dimension: of }: Quantity): boolean {
  return sameDimension(of, LENGTH) || sameDimension(of, ANGLE);
}

const LENGTH = dimension({ length: 1 });
const ANGLE = dimension({ angle: 1 });

/** Whether some words of a link are a term. */
function namesTerm(link: readonly Token[], own: ReadonlySet<string>): boolean {
  return link.some((token, from) => {
    if (token.kind !== 'word' || own.has(token.text)) return false;
    let text = '';
    for (const word of link.slice(from, from + MOST_WORDS)) {
      if (word.kind !== 'word') break;
      text += text === '' ? word.text : ` ${word.text}`;
      if (findTerm(text) !== null) return true;
    }
    return false;
  });
}

const MOST_WORDS = 4;

function ownColumns(lines: readonly TableLine[], aboutScales: boolean): readonly string[] {
  const table = headAndRows(lines);
  if (table === null) return [];
  return table.head.cells.flatMap((cell, index) => {
    const letter = columnLetter(cell);
    if (letter === null) return [];
    const { unit } = letter;
    const cells = table.rows.flatMap(row => (row.cells[index]?.text ? [row.cells[index]] : []));
    const values = cells.map(({ tokens }) =>
      statedValue(unit.length === 0 || tokens.length > 1 ? tokens : [...tokens, ...unit]),
    );
    const isOther = values.some(
      value => value !== null && !isPlain(value.dimension) && !isLengthOrAngle(value),
    );
    return !aboutScales || isOther ? [letter.name] : [];
  });
}

function columnLetter(cell: Cell): { readonly name: string; readonly unit: readonly Token[] } | null {
  const column = columnName(cell);
  const name = cell.tokens[0]?.text ?? '';
  return column.kind === 'term' && LETTERS.has(name) && findTerm(name) === column.term
    ? { name, unit: column.unit }
    : null;
}

/** Whether a statement is about an instrument's scales: by more than a letter, or by a letter that is a length. */
function speaksOfScales(statement: Statement): boolean {
  if (statement.kind === 'words') return false;
  if (statement.kind === 'table') {
    return (headAndRows(statement.lines)?.head.cells ?? []).some(cell => {
      const column = columnName(cell);
      return column.kind === 'term' && columnLetter(cell) === null && isOfScales(column.term);
    });
  }
  const left = statement.leftSide;
  if (left.kind === 'divisions') return true;
  if (left.kind !== 'term') return false;
  const letter = loneLetter(statement);
  if (letter === null) return isOfScales(left.term);
  if (letter === 'n' || statement.right.some(token => isSign(token, '±'))) return false;
  const value = statedValue(linksOf(statement.right).at(-1) ?? []);
  return value !== null && isLengthOrAngle(value);
}

function isOfScales({ kind, name }: Term): boolean {
  if (kind === 'record') return SCALE_RECORDS.has(name);
  // A meter has a least count as well, and whatever is repeated has a spread.
  return kind !== 'statistic' && !NOT_OF_SCALES.has(name);
}

const SCALE_RECORDS = new Set<string>(['instrument', 'uses', 'vernier runs', 'measuring range']);
const NOT_OF_SCALES = new Set<string>(['least count', 'mean absolute error', 'standard deviation']);
