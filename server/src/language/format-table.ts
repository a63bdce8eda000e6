import { LIMITS } from './parser.ts';
import type { FenceLine } from './syntax.ts';
import type { TableLine } from './table-line.ts';

/** A column is made no wider than this; a longer cell stands out of it. */
const WIDEST = 60;

type Side = 'left' | 'right' | 'middle';

/**
 * The lines of a table with their bars below each other, by where the lines start.
 *
 *     | LSR | CSR |           | LSR    | CSR |
 *     |---|--:|               |--------|----:|
 *     | 6.0 mm | 34 | # first | 6.0 mm |  34 | # first
 *
 * Empty where the rows would grow past a line's limit.
 */
export function tidiedTable(
  lines: readonly FenceLine[],
  rows: readonly TableLine[],
): ReadonlyMap<number, string> {
  const columns = Math.max(...rows.map(({ cells }) => cells.length));
  const rule = rows.find(({ isRule }) => isRule);
  const sides = Array.from({ length: columns }, (_, column) => sideOf(rule?.cells[column]?.text ?? ''));
  const widths = Array.from({ length: columns }, () => 1);
  for (const { cells, isRule } of rows) {
    for (const [column, { text }] of cells.entries()) {
      const width = isRule ? text.replace(/-+/, '-').length : Math.min(WIDEST, lengthOf(text));
      widths[column] = Math.max(widths[column]!, width);
    }
  }
  const tidied = new Map<number, string>();
  let at = 0;
  for (const row of rows) {
    while (at < lines.length && lines[at]!.start + lines[at]!.text.length < row.span.start) at += 1;
    const line = lines[at];
    if (line === undefined) return new Map();
    const text = row.isRule
      ? row.cells.map(({ text }, column) => ruleCell(text, widths[column]!))
      : row.cells.map(({ text }, column) => ` ${padded(text, widths[column]!, sides[column]!)} `);
    const indent = line.text.slice(0, row.span.start - line.start);
    const rest = line.text.slice(row.span.end - line.start).trimEnd();
    const made = `${indent}|${text.map(cell => `${cell}|`).join('')}${rest}`;
    if (made.length > LIMITS.lineLength) return new Map();
    tidied.set(line.start, row.cells.length === 0 ? line.text.trimEnd() : made);
  }
  return tidied;
}

function sideOf(rule: string): Side {
  if (!rule.endsWith(':')) return 'left';
  return rule.startsWith(':') ? 'middle' : 'right';
}

function ruleCell(typed: string, width: number): string {
  const first = typed.startsWith(':') ? ':' : '';
  const last = typed.endsWith(':') ? ':' : '';
  return `${first}${'-'.repeat(Math.max(1, width + 2 - first.length - last.length))}${last}`;
}

function padded(text: string, width: number, side: Side): string {
  const missing = Math.max(0, width - lengthOf(text));
  const before = side === 'left' ? 0 : side === 'right' ? missing : missing >> 1;
  return ' '.repeat(before) + text + ' '.repeat(missing - before);
}

/** In characters as they are seen: an accent that stands as a mark of its own takes no place. */
function lengthOf(text: string): number {
  return [...text.replace(/\p{M}/gu, '')].length;
}
