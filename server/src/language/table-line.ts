import { tokenize } from './lexer.ts';
import { tokensText } from './statement-dress.ts';
import { type FenceLine, type Span, spanOf, type Token } from './syntax.ts';

export interface Cell {
  readonly tokens: readonly Token[];
  /** The cell's text without the spaces around it; an empty cell has an empty span. */
  readonly span: Span;
  readonly text: string;
}

export interface TableLine {
  readonly cells: readonly Cell[];
  readonly span: Span;
  /** `|---|:--:|` */
  readonly isRule: boolean;
}

export function isTableLine(line: FenceLine): boolean {
  return /^\s*\|/.test(line.text);
}

/**
 * Takes a row apart at its bars.
 *
 *     | LSR    | CSR |   # a comment only here
 *       ^^^^^^   ^^^
 *
 * A `#` may head a column, so that a comment begins only behind the row's last bar.
 */
export function readTableLine(line: FenceLine, header: TableLine | null): TableLine {
  const cells: Cell[] = [];
  const { text } = line;
  let from = text.indexOf('|') + 1;
  const begin = from - 1;
  let end = from;
  for (;;) {
    const rest = text.slice(from);
    const bar = text.indexOf('|', from);
    const full = header !== null && cells.length >= header.cells.length;
    if (bar === -1 || (full && /^\s*#/.test(rest))) {
      // A row without its last bar still holds a cell, unless a comment or nothing follows.
      if (!/^\s*(?:#|$)/.test(rest)) {
        const comment = /\s#/.exec(rest);
        const stop = comment === null ? text.length : from + comment.index;
        cells.push(cellOf(line, from, stop));
        end = stop;
      }
      break;
    }
    cells.push(cellOf(line, from, bar));
    from = bar + 1;
    end = from;
  }
  return {
    cells,
    span: spanOf(line.start + begin, line.start + end),
    isRule: cells.length > 0 && cells.every(cell => /^:?-+:?$/.test(cell.text)),
  };
}

export interface Table {
  readonly head: TableLine;
  /** Without lines of dashes, and without the head said again. */
  readonly rows: readonly TableLine[];
  /** Rows called `Mean` or `Sum`: what the rows come to, and no readings. */
  readonly means: readonly TableLine[];
}

/** The head of a table, its rows, and the means below them. */
export function headAndRows(lines: readonly TableLine[]): Table | null {
  const [head, ...rest] = lines.filter(line => !line.isRule);
  if (head === undefined) return null;
  const again = (row: TableLine): boolean =>
    row.cells.length === head.cells.length &&
    row.cells.every((cell, index) => cell.text === head.cells[index]!.text);
  const below = rest.filter(row => !again(row));
  return { head, rows: below.filter(row => !isMean(row)), means: below.filter(isMean) };
}

function isMean({ cells }: TableLine): boolean {
  const called = cells.find(({ text }) => text !== '');
  return (
    called !== undefined &&
    /^(?:mean|average|avg|sum|total)(?: values?)?[.:]?$/i.test(tokensText(called.tokens)) &&
    cells.some(cell => cell !== called && cell.text !== '')
  );
}

function cellOf(line: FenceLine, from: number, to: number): Cell {
  const raw = line.text.slice(from, to);
  const text = raw.trim();
  const start = line.start + from + (text === '' ? Math.min(1, raw.length) : raw.indexOf(text));
  return { tokens: tokenize(text, start).tokens, span: spanOf(start, start + text.length), text };
}
