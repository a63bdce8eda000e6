import type { Colours } from '../colours.ts';
import { counted } from '../counted.ts';
import { escapeControls } from '../escape-controls.ts';
import type { BankHoldings, BlockPlace } from './bank-holdings.ts';

/** More groups of duplicates than this are only counted: the JSON document has them all. */
const MOST_GROUPS = 50;
const INDENT = '  ';

/** What a bank holds, for people: a few small tables one below the other. */
export function holdingsTable(holdings: BankHoldings, colours: Colours): string {
  const { notes, blocks, instruments, asked, rules, slips } = holdings;
  const head = `${counted(notes, 'note')}, ${counted(blocks, 'block')}`;
  const sections = [
    table(
      colours,
      'Instruments',
      ['', 'blocks'],
      instruments.map(each => [each.instrument ?? 'not named', each.blocks]),
    ),
    table(
      colours,
      'Asked for',
      ['', 'blocks'],
      asked.map(each => [each.term, each.blocks]),
    ),
    table(
      colours,
      'Rules',
      ['', 'errors', 'warnings'],
      rules.map(each => [each.rule, each.errors, each.warnings]),
    ),
    table(
      colours,
      'Slips',
      ['', 'findings'],
      slips.map(each => [each.slip, each.findings]),
    ),
    keyTable(holdings, colours),
    duplicateList(holdings.duplicates, colours),
  ];
  return `${head}\n${sections.join('')}`;
}

function keyTable({ keys }: BankHoldings, colours: Colours): string {
  const rows = keys.map(({ letter, keys: times, choices, evenShare, isFarTooOften }) => [
    letter,
    times,
    choices,
    evenShare,
    isFarTooOften ? 'far too often: worth a look' : '',
  ]);
  return table(colours, 'Keys', ['', 'keys', 'choices', 'even share', ''], rows);
}

function duplicateList(groups: BankHoldings['duplicates'], colours: Colours): string {
  if (groups.length === 0) return '';
  const lines = groups.slice(0, MOST_GROUPS).map(places => `${INDENT}${places.map(placeText).join(', ')}\n`);
  const more = groups.length - lines.length;
  const rest = more > 0 ? `${INDENT}and ${counted(more, 'more group')}; --format json lists all\n` : '';
  return `\n${colours.bold('The same scales and observations')}\n${lines.join('')}${rest}`;
}

function placeText({ path, line, block }: BlockPlace): string {
  return escapeControls(`${path}:${line}${block === null ? '' : ` (${block})`}`);
}

/** A table with its title; nothing where there are no rows. Numbers stand to the right. */
function table(
  colours: Colours,
  title: string,
  head: readonly string[],
  rows: readonly (readonly (string | number)[])[],
): string {
  if (rows.length === 0) return '';
  const cells = [head, ...rows].map(row => row.map(cell => escapeControls(String(cell))));
  const widths = head.map((_, column) => Math.max(...cells.map(row => row[column]?.length ?? 0)));
  const lines = cells.map((row, at) =>
    row
      .map((cell, column) =>
        isText(rows, column) ? cell.padEnd(widths[column]!) : cell.padStart(widths[column]!),
      )
      .map(cell => (at === 0 ? colours.dim(cell) : cell))
      .join(INDENT),
  );
  return `\n${colours.bold(title)}\n${lines.map(line => `${INDENT}${line.trimEnd()}\n`).join('')}`;
}

/** Whether a column holds words. A number with its decimal counts as a number. */
function isText(rows: readonly (readonly (string | number)[])[], column: number): boolean {
  return rows.some(row => typeof row[column] === 'string' && !/^\d+(\.\d+)?$/.test(row[column]));
}
