import { readLinks } from './claim.ts';
import { type Draft, replaceFix, report } from './draft.ts';
import { interpretReading } from './interpret-reading.ts';
import type { Claim, Given, Observation, Subject } from './measurement.ts';
import { readStated } from './stated.ts';
import type { Span, Token } from './syntax.ts';
import { type Column, columnName } from './table-header.ts';
import { type Cell, headAndRows, type TableLine } from './table-line.ts';
import type { ComputedTerm, ObservableTerm } from './term-names.ts';
import { nearTerms, termNamed } from './terms.ts';

/**
 * Reads a table of repeated readings: one row, one reading.
 *
 *     | label | LSR    | CSR | observed reading |     head: terms, own quantities
 *     |-------|--------|-----|------------------|     may be missing
 *     | plate | 0 mm   | 14  | 0.14 mm          |     observables are records, computed columns claims
 */
export function interpretTable(draft: Draft, lines: readonly TableLine[]): void {
  const table = headAndRows(lines);
  if (table === null) return;
  const { head: header, rows } = table;
  const columns = header.cells.map((cell, index) =>
    meantColumn(
      draft,
      columnName(cell),
      cell,
      rows.map(row => row.cells[index]),
    ),
  );
  for (const [index, column] of columns.entries()) checkColumn(draft, column, header.cells[index]!);
  const labels = new Map<string, Span>();
  for (const line of rows) interpretRow(draft, columns, line, labels);
}

/** A column VSR that holds whole numbers holds coinciding divisions; its head says otherwise. */
function meantColumn(draft: Draft, column: Column, head: Cell, cells: readonly (Cell | undefined)[]): Column {
  if (column.kind !== 'term' || column.term.name !== 'vernier scale reading' || column.unit.length > 0)
    return column;
  if (cells.length === 0 || !cells.every(cell => cell === undefined || /^\d*$/.test(cell.text)))
    return column;
  report(
    draft,
    'not-plain',
    head.span,
    'a vernier scale reading is a length, but this column holds the numbers of lines: the coinciding divisions',
    [replaceFix('Write VC', head.span, 'VC', true)],
  );
  return { kind: 'term', term: termNamed('coinciding division'), unit: [] };
}

function checkColumn(draft: Draft, column: Column, cell: Cell): void {
  if (column.kind === 'own') {
    const near = column.name.includes(' ') || column.name.length > 3 ? nearTerms(column.name)[0] : undefined;
    if (near === undefined) {
      draft.columns.add(column.name);
    } else {
      report(draft, 'unknown-term', cell.span, `${cell.text} is no term; ${near.name} is likely meant`, [
        replaceFix(`Write ${near.name}`, cell.span, near.name, near.sure),
      ]);
    }
  } else if (column.kind === 'unknown' && cell.text !== '') {
    report(
      draft,
      'unknown-term',
      cell.span,
      `${cell.text} heads a column, but it is no term and no name of a quantity`,
    );
  } else if (column.kind === 'term' && column.term.kind !== 'observable' && column.term.kind !== 'computed') {
    report(
      draft,
      'unknown-term',
      cell.span,
      `a column cannot hold the ${column.term.name}; it belongs to the whole block`,
    );
  }
}

function interpretRow(
  draft: Draft,
  columns: readonly Column[],
  line: TableLine,
  labels: Map<string, Span>,
): void {
  const number = draft.rows.length + 1;
  const readings = new Map<ObservableTerm, Observation>();
  const own = new Map<string, Given>();
  let label: string | null = null;
  for (const [index, cell] of line.cells.entries()) {
    const column = columns[index];
    if (column === undefined) {
      if (cell.text !== '')
        report(
          draft,
          'unreadable-line',
          cell.span,
          `${cell.text} stands in a column that the table's head does not name`,
        );
      continue;
    }
    if (column.kind === 'label' && cell.text !== '') {
      const before = labels.get(cell.text.toLowerCase());
      if (before !== undefined) {
        report(
          draft,
          'duplicate-name',
          cell.span,
          `the label ${cell.text} already names a row above; the first one keeps it`,
          [],
          [{ span: before, message: `the first row called ${cell.text}` }],
        );
      } else {
        label = cell.text;
        labels.set(cell.text.toLowerCase(), cell.span);
      }
      continue;
    }
    if (cell.text === '' || column.kind === 'counter' || column.kind === 'unknown' || column.kind === 'label')
      continue;
    if (column.kind === 'own') {
      if (!draft.columns.has(column.name)) continue;
      const stated = readStated(draft, cell.tokens, { mode: 'value', unit: column.unit });
      if (stated !== null) own.set(column.name, { stated, span: cell.span, assumed: false });
    } else if (column.term.kind === 'observable') {
      const term = screwTerm(draft, column.term.name as ObservableTerm);
      const reading = interpretReading(draft, term, cell.tokens, cell.span, column.unit);
      if (reading !== null) readings.set(term, reading);
      else draft.broken.add(term);
    } else if (column.term.kind === 'computed') {
      draft.claims.push(cellClaim(draft, column.term.name as ComputedTerm, number, cell, column.unit));
    }
  }
  draft.rows.push({ number, label, readings, own, span: line.span });
}

/** On a screw without a vernier the main scale is the linear one. */
export function screwTerm(draft: Draft, term: ObservableTerm): ObservableTerm {
  return draft.isScrew && term === 'main scale reading' ? 'linear scale reading' : term;
}

function cellClaim(draft: Draft, term: ComputedTerm, row: number, cell: Cell, unit: readonly Token[]): Claim {
  const subject: Subject = { kind: 'term', term, row, block: null };
  const links = readLinks(draft, cell.tokens, unit);
  return {
    subject,
    symbol: null,
    times: null,
    subjectText: term,
    subjectSpan: cell.span,
    links,
    span: cell.span,
    signSpan: { start: cell.span.start, end: cell.span.start },
    inTable: true,
    mended: false,
  };
}
