import { plain } from '../engine/quantity.ts';
import { rational } from '../engine/rational.ts';
import { unitWord } from '../engine/unit.ts';
import { readLinks, rememberSubject } from './claim.ts';
import { type Draft, leaveUnread, replaceFix, report } from './draft.ts';
import { interpretReading } from './interpret-reading.ts';
import type { Claim, Given, Observation, Subject } from './measurement.ts';
import { subjectKey } from './names.ts';
import { readStated } from './stated.ts';
import { tokensText } from './statement-dress.ts';
import type { Span, Token } from './syntax.ts';
import { type Column, columnName } from './table-header.ts';
import { type Cell, headAndRows, type TableLine } from './table-line.ts';
import type { ComputedTerm, ObservableTerm, TermName } from './term-names.ts';
import { nearTerms, type Term, termNamed } from './terms.ts';

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
  const { head: header, rows, means } = table;
  const columns = header.cells.map((cell, index) =>
    meantColumn(
      draft,
      columnName(cell, draft.names.here.own),
      cell,
      rows.map(row => row.cells[index]),
    ),
  );
  for (const [index, column] of columns.entries()) checkColumn(draft, column, header.cells[index]!);
  const labels = new Map<string, Span>();
  for (const line of rows) interpretRow(draft, columns, line, labels);
  for (const line of means) interpretMeans(draft, columns, line, rows.length);
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
  return { kind: 'term', term: termNamed('coinciding division'), unit: [], symbol: null };
}

function checkColumn(draft: Draft, column: Column, cell: Cell): void {
  if (column.kind === 'own') {
    const near = column.name.includes(' ') || column.name.length > 3 ? nearTerms(column.name)[0] : undefined;
    if (near === undefined) {
      draft.columns.add(column.name);
    } else {
      leaveUnread(draft, nameHere(draft, near.term));
      report(draft, 'unknown-term', cell.span, `${cell.text} is no term; ${near.name} is likely meant`, [
        replaceFix(`Write ${near.name}`, cell.span, near.name, near.sure),
      ]);
    }
  } else if (column.kind === 'unknown' && cell.text !== '') {
    report(
      draft,
      'unknown-term',
      cell.span,
      column.why ?? `${cell.text} heads a column, but it is no term and no name of a quantity`,
      column.offers.map(offer => replaceFix(`Write ${offer}`, cell.span, offer, false)),
    );
  } else if (column.kind === 'term' && column.term.kind !== 'observable' && column.term.kind !== 'computed') {
    const meant = READ_ON[column.term.name];
    const unit = meant === 'coinciding division' ? undefined : /\s*(?:\(.*\)|\[.*\])$/.exec(cell.text)?.[0];
    const offered = `${meant}${unit ?? ''}`;
    report(
      draft,
      'unknown-term',
      cell.span,
      `a column cannot hold the ${column.term.name}; it belongs to the whole block${meant === undefined ? '' : `, and the ${meant} is likely meant`}`,
      meant === undefined ? [] : [replaceFix(`Write ${offered}`, cell.span, offered, false)],
    );
    if (meant !== undefined) leaveUnread(draft, meant);
  }
}

/** What is read on a scale, where its name heads a column. */
const READ_ON: Readonly<Partial<Record<TermName, ObservableTerm>>> = {
  'main scale': 'main scale reading',
  'vernier scale': 'coinciding division',
  'linear scale': 'linear scale reading',
  'circular scale': 'circular scale reading',
};

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
    } else if (column.kind === 'circular part') {
      draft.claims.push(circularClaim(draft, number, cell, column.unit));
    } else if (column.term.kind === 'observable') {
      const term = screwTerm(draft, column.term.name as ObservableTerm);
      const reading = interpretReading(draft, term, ...seen(cell, column.unit));
      if (reading !== null) readings.set(term, reading);
      else draft.broken.add(term);
    } else if (column.term.kind === 'computed') {
      draft.claims.push(cellClaim(draft, column.term.name as ComputedTerm, number, cell, column.unit));
    }
  }
  draft.rows.push({ number, label, readings, own, span: line.span });
}

/**
 * A row called `Mean` claims the means of its columns, one called `Sum` so many times that: of the readings, or of a
 * quantity of one's own.
 *
 *     | Mean | | | 30.46 mm |
 */
function interpretMeans(draft: Draft, columns: readonly Column[], line: TableLine, rows: number): void {
  const called = line.cells.findIndex(({ text }) => text !== '');
  const name = tokensText(line.cells[called]!.tokens);
  const isSum = /^(?:sum|total)/i.test(name);
  for (const [index, cell] of line.cells.entries()) {
    const column = columns[index];
    if (index === called || /^[-–—]*$/.test(cell.text) || column === undefined || column.kind === 'unknown')
      continue;
    const mean = meanOf(draft, column);
    if (mean === null || rows !== draft.names.here.rows) {
      const why =
        mean === null
          ? 'only readings and quantities of your own have a mean or a sum in a table'
          : 'the means of a block are over the rows of all its tables';
      report(draft, 'unreadable-line', cell.span, `${cell.text} in the row ${name} cannot be read: ${why}`);
      continue;
    }
    rememberSubject(draft, mean);
    const unit = column.kind === 'label' || column.kind === 'counter' ? [] : column.unit;
    const claim = claimInCell(draft, mean, cell, unit);
    draft.claims.push(isSum ? { ...claim, ...asSum(mean, rows) } : claim);
  }
}

/** As many times the mean as there are rows. */
function asSum(mean: Subject, rows: number): Pick<Claim, 'times' | 'subjectText'> {
  const of =
    mean.kind === 'term'
      ? `the ${mean.term.replace(/^mean /, '')}s`
      : mean.kind === 'statistic' && mean.of.kind === 'own'
        ? mean.of.name
        : 'these values';
  return {
    subjectText: `the sum of ${of}`,
    times: { kind: 'literal', quantity: plain(rational(rows)), place: null, text: String(rows) },
  };
}

function meanOf(draft: Draft, column: Column): Subject | null {
  if (column.kind === 'own' && draft.columns.has(column.name))
    return {
      kind: 'statistic',
      statistic: 'mean',
      of: { kind: 'own', name: column.name, row: null, block: null },
      from: null,
    };
  const term = column.kind === 'term' ? column.term.name : '';
  return term === 'observed reading' || term === 'corrected reading'
    ? { kind: 'term', term: `mean ${term}`, row: null, block: null }
    : null;
}

/** What a cell says was seen: a bare number below `(div)` counts divisions. */
function seen(cell: Cell, unit: readonly Token[]): readonly [readonly Token[], Span, readonly Token[]] {
  const [only, ...others] = cell.tokens;
  const isCount = unit[0] !== undefined && unitWord(unit[0].text) === null && unit[0].kind === 'word';
  if (!isCount) return [cell.tokens, cell.span, unit];
  const { end } = cell.span;
  const counted = unit.map(token => ({ ...token, span: { start: end, end } }));
  const isBare = only?.kind === 'number' && others.length === 0;
  return [isBare ? [only, ...counted] : cell.tokens, cell.span, []];
}

/** On a screw without a vernier the main scale is the linear one. */
export function screwTerm(draft: Draft, term: ObservableTerm): ObservableTerm {
  return draft.isScrew && term === 'main scale reading' ? 'linear scale reading' : term;
}

/** The name of a term in this block: on a screw without a vernier main means linear. */
export function nameHere(draft: Draft, { name }: Term): string {
  return draft.isScrew ? name.replace(/^main scale/, 'linear scale') : name;
}

function cellClaim(draft: Draft, term: ComputedTerm, row: number, cell: Cell, unit: readonly Token[]): Claim {
  return claimInCell(draft, { kind: 'term', term, row, block: null }, cell, unit);
}

/** So many divisions of the circular scale as its row says, `CSR × LC`. */
function circularClaim(draft: Draft, row: number, cell: Cell, unit: readonly Token[]): Claim {
  const reading: Subject = { kind: 'term', term: 'circular scale reading', row, block: null };
  const division: Subject = { kind: 'division', division: 'circular scale division', block: null };
  rememberSubject(draft, reading);
  rememberSubject(draft, division);
  return {
    ...claimInCell(draft, division, cell, unit),
    subjectText: 'the length that the circular scale reading stands for',
    times: { kind: 'name', key: subjectKey(reading), text: 'CSR' },
  };
}

function claimInCell(draft: Draft, subject: Subject, cell: Cell, unit: readonly Token[]): Claim {
  const links = readLinks(draft, cell.tokens, cell.span, unit);
  return {
    subject,
    symbol: null,
    times: null,
    subjectText: subject.kind === 'term' ? subject.term : '',
    subjectSpan: cell.span,
    links,
    span: cell.span,
    signSpan: { start: cell.span.start, end: cell.span.start },
    inTable: true,
    mended: false,
  };
}
