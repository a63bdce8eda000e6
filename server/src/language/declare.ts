import { changeOf } from './changes.ts';
import { type ChangeLine, declareChanges } from './declare-changes.ts';
import type { FenceHeader } from './fence-header.ts';
import { isWords } from './interpret-formula.ts';
import { isAboutNumbers } from './interpret-numbers.ts';
import type { LeftSide } from './left-side.ts';
import type { Subject } from './measurement.ts';
import { blockKey, type Declarations, labelKey, subjectOfTerm } from './names.ts';
import { ownLetters } from './own-letters.ts';
import type { Block, Statement } from './parser.ts';
import { tokensText } from './statement-dress.ts';
import { columnName } from './table-header.ts';
import { headAndRows, type TableLine } from './table-line.ts';
import { findTerm } from './terms.ts';

/** What a block gives names to: its own quantities, symbols for its terms, the labels of its rows. */
export function declare(block: Block, header: FenceHeader): Declarations {
  const letters = ownLetters(block);
  const { screw, vernier } = wordsOf(block, letters);
  const declaring: Declaring = {
    block,
    letters,
    hasScales: screw || vernier,
    deviations: null,
    own: new Map(),
    symbols: new Map(),
    labels: new Map(),
    units: new Set(),
    changes: [],
    withError: new Set(),
  };
  const { own, symbols, labels } = declaring;
  const aliases = new Map<string, string>();
  let rows = 0;
  let uses: string | null = null;
  for (const statement of block.statements) {
    if (statement.kind === 'words') continue;
    if (statement.kind === 'table') {
      rows += declareTable(statement.lines, rows, declaring);
      continue;
    }
    const left = statement.leftSide;
    switch (left.kind) {
      case 'term':
        if (left.term.name === 'uses') uses ??= blockKey(tokensText(statement.right));
        declareTerm(statement, left, declaring);
        break;
      case 'own':
        declareOwn(statement, left, declaring);
        break;
      case 'multiple':
        if (isAboutNumbers(statement)) declaring.units.add(left.name);
        else if (!own.has(left.name)) own.set(left.name, left.name);
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
  // In `1 m = 100 cm` m is a unit, unless it means something in the block.
  for (const name of declaring.units)
    if (symbols.has(name) || aliases.has(name) || (name === 'N' && declaring.hasScales)) own.set(name, name);
  declareChanges(block, declaring.changes, declaring);
  return { block: header.name, own, symbols, aliases, labels, rows, uses, screw, vernier };
}

/** What is gathered from line to line. */
interface Declaring {
  readonly block: Block;
  /** Letters that are quantities of one's own here, and no divisions. */
  readonly letters: ReadonlySet<string>;
  readonly hasScales: boolean;
  /** Whether the block has angles called deviations; null until somebody asks. */
  deviations: boolean | null;
  readonly own: Map<string, string>;
  readonly symbols: Map<string, Subject>;
  readonly labels: Map<string, number>;
  /** Letters on left sides that may be units. */
  readonly units: Set<string>;
  /** `Δm` and the like: whether they name quantities is known when all else is. */
  readonly changes: ChangeLine[];
  /** Names of what is stated with an error. */
  readonly withError: Set<string>;
}

type Signed = Exclude<Statement, { readonly kind: 'table' | 'words' }>;
type SideOf<Kind extends LeftSide['kind']> = Extract<LeftSide, { readonly kind: Kind }>;

function declareTerm(
  { leftText, right }: Signed,
  { term, symbol }: SideOf<'term'>,
  declaring: Declaring,
): void {
  const { block, letters, own, symbols, withError } = declaring;
  const isDeviation = /^mean deviation\b/i.test(leftText);
  if (isDeviation) declaring.deviations ??= hasDeviations(block);
  if (isDeviation && declaring.deviations) {
    const name = symbol ?? 'mean deviation';
    for (const text of [name, 'mean deviation', leftText]) own.set(text, name);
    return;
  }
  const subject = subjectOfTerm(term, null, null);
  if (symbol !== null && subject !== null && !symbols.has(symbol)) symbols.set(symbol, subject);
  if (letters.has(leftText)) own.set(leftText, leftText);
  if (right.some(token => token.text === '±')) withError.add(leftText);
}

function declareOwn({ left, right }: Signed, { words, symbol }: SideOf<'own'>, declaring: Declaring): void {
  const { letters, hasScales, own, changes, withError } = declaring;
  if (!isWords(left)) return;
  const name = symbol ?? words;
  // In a block about an instrument N is the number of divisions of its fine scale.
  if (name === 'N' && hasScales && !letters.has(name)) return;
  if (changeOf(name) !== null) {
    changes.push({ name, words, right });
    return;
  }
  if (right.some(token => token.text === '±')) withError.add(name);
  // The symbol stands for the quantity, its words name it too.
  if (!own.has(name)) own.set(name, name);
  if (symbol !== null && words !== '' && !own.has(words)) own.set(words, name);
}

/** Whether a block has angles called deviations, so that their mean is an angle as well and no mean absolute error. */
function hasDeviations(block: Block): boolean {
  return block.statements.some(statement => {
    if (statement.kind === 'words' || statement.kind === 'table') return false;
    const { leftSide, leftText, right } = statement;
    return (
      (leftSide.kind === 'own' && /\bdeviation$/.test(leftSide.words)) ||
      (leftText.toLowerCase() === 'instrument' && /spectrometer/i.test(tokensText(right)))
    );
  });
}

function declareTable(
  lines: readonly TableLine[],
  before: number,
  { letters, own, symbols, labels }: Declaring,
): number {
  const table = headAndRows(lines);
  if (table === null) return 0;
  const { head: header, rows: rest } = table;
  const labelColumn = header.cells.findIndex(cell => findTerm(cell.text)?.name === 'label');
  for (const cell of header.cells) {
    const column = columnName(cell, letters);
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
function wordsOf(block: Block, letters: ReadonlySet<string>): { screw: boolean; vernier: boolean } {
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
        const column = columnName(cell, letters);
        if (column.kind === 'term') see(column.term.name);
        if (column.kind === 'circular part') see('circular scale reading');
      }
    } else if (statement.kind !== 'words') {
      const left = statement.leftSide;
      // On a screw n may be the number of divisions, so it says nothing about a vernier.
      if (left.kind === 'term' && statement.leftText !== 'n' && !letters.has(statement.leftText))
        see(left.term.name);
      if (left.kind === 'divisions') see(left.division);
      const text = statement.leftText.toLowerCase();
      // A second instrument is no record: the first stands.
      if (
        text === 'instrument' &&
        !named &&
        /screw|micrometer|spherometer|dial/.test(tokensText(statement.right).toLowerCase())
      ) {
        if (/vernier/i.test(tokensText(statement.right))) vernier = true;
        screw = true;
      }
      if (text === 'instrument') named = true;
    }
  }
  return { screw, vernier };
}
