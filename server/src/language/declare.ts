import { dimension, sameDimension } from '../engine/dimension.ts';
import { unitWord } from '../engine/unit.ts';
import type { FenceHeader } from './fence-header.ts';
import type { Subject } from './measurement.ts';
import { blockKey, type Declarations, isSymbol, labelKey, subjectOfTerm } from './names.ts';
import type { Block } from './parser.ts';
import { tokensText } from './statement-dress.ts';
import { columnName } from './table-header.ts';
import { headAndRows, type TableLine } from './table-line.ts';
import { findTerm } from './terms.ts';

/** What a block gives names to: its own quantities, symbols for its terms, the labels of its rows. */
export function declare(block: Block, header: FenceHeader): Declarations {
  const own = new Map<string, string>();
  const symbols = new Map<string, Subject>();
  const labels = new Map<string, number>();
  const aliases = new Map<string, string>();
  let rows = 0;
  let uses: string | null = null;
  const { screw, vernier } = wordsOf(block);
  for (const statement of block.statements) {
    if (statement.kind === 'words') continue;
    if (statement.kind === 'table') {
      rows += declareTable(statement.lines, rows, { own, symbols, labels });
      continue;
    }
    const left = statement.leftSide;
    switch (left.kind) {
      case 'term': {
        if (left.term.name === 'uses') uses ??= blockKey(tokensText(statement.right));
        const subject = subjectOfTerm(left.term, null, null);
        if (left.symbol !== null && subject !== null && !symbols.has(left.symbol))
          symbols.set(left.symbol, subject);
        if (isOwnSymbol(left.term.also, statement.left.length, statement.right, statement.leftText)) {
          own.set(statement.leftText, statement.leftText);
        }
        break;
      }
      case 'own': {
        const name = left.symbol ?? left.words;
        // In a block about an instrument N is the number of divisions of its fine scale.
        if (name === 'N' && (screw || vernier)) break;
        // The symbol stands for the quantity, its words name it too.
        if (!own.has(name)) own.set(name, name);
        if (left.symbol !== null && left.words !== '' && !own.has(left.words)) own.set(left.words, name);
        break;
      }
      case 'multiple':
        if (!own.has(left.name)) own.set(left.name, left.name);
        break;
      case 'reference':
        if (left.symbol !== null && !aliases.has(left.symbol)) aliases.set(left.symbol, left.text);
        break;
      case 'divisions':
      case 'option':
      case 'none':
        break;
    }
  }
  return { block: header.name, own, symbols, aliases, labels, rows, uses, screw, vernier };
}

/**
 * Whether a lone S, V or n is a quantity of one's own here: its last link is no length and it says so with a unit.
 *
 * `V = 3.2 cm^3` and `V: 12 V` are; `V = 0.48 mm` is the vernier scale division.
 */
function isOwnSymbol(
  also: readonly string[],
  leftTokens: number,
  right: readonly { readonly kind: string; readonly text: string }[],
  text: string,
): boolean {
  if (leftTokens !== 1 || text.length !== 1 || !also.includes(text) || text === 'n') return false;
  const lastSign = right.map(token => token.text).lastIndexOf('=');
  const link = right.slice(lastSign + 1);
  const units = link.filter(token => token.kind === 'word').map(token => token.text);
  const raised = link.some(token => token.text === '^' || token.kind === 'superscript');
  if (units.length === 0) return false;
  const [only, ...others] = units;
  const unit =
    only === undefined || others.length > 0 || raised || link.some(token => token.text === '/')
      ? null
      : unitWord(only);
  if (unit !== null) return !sameDimension(unit.dimension, LENGTH) && !sameDimension(unit.dimension, ANGLE);
  return !units.some(word => findTerm(word) !== null || (isSymbol(word) && unitWord(word) === null));
}

const LENGTH = dimension({ length: 1 });
const ANGLE = dimension({ angle: 1 });

interface TableNames {
  readonly own: Map<string, string>;
  readonly symbols: Map<string, Subject>;
  readonly labels: Map<string, number>;
}

function declareTable(
  lines: readonly TableLine[],
  before: number,
  { own, symbols, labels }: TableNames,
): number {
  const table = headAndRows(lines);
  if (table === null) return 0;
  const { head: header, rows: rest } = table;
  const labelColumn = header.cells.findIndex(cell => findTerm(cell.text)?.name === 'label');
  for (const cell of header.cells) {
    const column = columnName(cell);
    if (column.kind === 'term' && column.symbol !== null && !symbols.has(column.symbol)) {
      const subject = subjectOfTerm(column.term, null, null);
      if (subject !== null) symbols.set(column.symbol, subject);
    }
    if (column.kind === 'own' && !own.has(column.name)) own.set(column.name, column.name);
    if (column.kind === 'own' && column.words !== '' && !own.has(column.words))
      own.set(column.words, column.name);
  }
  for (const [index, row] of rest.entries()) {
    const label = labelColumn === -1 ? undefined : row.cells[labelColumn]?.text;
    const key = label === undefined ? '' : labelKey(label);
    if (key !== '' && !labels.has(key)) labels.set(key, before + index + 1);
  }
  return rest.length;
}

const SCREW_WORDS = new Set([
  'screw',
  'circular scale',
  'linear scale',
  'circular scale reading',
  'linear scale reading',
  'circular scale division',
  'initial circular reading',
  'final circular reading',
  'full rotations',
  'pitch',
  'rotation',
  'linear scale division',
]);
const VERNIER_WORDS = new Set([
  'vernier scale',
  'vernier scale division',
  'coinciding division',
  'vernier runs',
  'vernier scale reading',
]);

/** Whether the block speaks of a screw or of a vernier: on a screw main means linear. */
function wordsOf(block: Block): { screw: boolean; vernier: boolean } {
  let screw = false;
  let vernier = false;
  let named = false;
  const see = (name: string): void => {
    if (SCREW_WORDS.has(name)) screw = true;
    if (VERNIER_WORDS.has(name)) vernier = true;
  };
  for (const statement of block.statements) {
    if (statement.kind === 'table') {
      for (const cell of statement.lines[0]?.cells ?? []) {
        const column = columnName(cell);
        if (column.kind === 'term') see(column.term.name);
        if (column.kind === 'circular part') see('circular scale reading');
      }
    } else if (statement.kind !== 'words') {
      const left = statement.leftSide;
      // On a screw n may be the number of divisions, so it says nothing about a vernier.
      if (left.kind === 'term' && statement.leftText !== 'n') see(left.term.name);
      if (left.kind === 'divisions') see(left.division);
      const text = statement.leftText.toLowerCase();
      // A second instrument is no record: the first stands.
      if (
        text === 'instrument' &&
        !named &&
        /screw|micrometer|spherometer|dial/.test(tokensText(statement.right).toLowerCase())
      )
        screw = true;
      if (text === 'instrument') named = true;
    }
  }
  return { screw, vernier };
}
