import type { Facts } from '../language/facts.ts';
import type { Row, Subject } from '../language/measurement.ts';
import { type Column, columnName } from '../language/table-header.ts';
import { headAndRows, type TableLine } from '../language/table-line.ts';
import type { ComputedTerm, ObservableTerm } from '../language/term-names.ts';
import type { CardCell, CardTable } from '../render/card.ts';
import { plainWords } from '../render/plain-words.ts';
import { writtenValue } from '../workings/put-in.ts';
import { termSubject } from '../workings/setting.ts';

/**
 * A table of readings: what was seen as it was typed, what follows from it as the records make it. Where `told`, the
 * readings stand beside their records, typed or not. Null where nothing is left.
 */
export function cardTable(facts: Facts, lines: readonly TableLine[], told: boolean): CardTable | null {
  const table = headAndRows(lines);
  if (table === null) return null;
  const rows = table.rows.flatMap(line => {
    const row = facts.measurement.rows.find(
      ({ span }) => span.start <= line.span.end && line.span.start <= span.end,
    );
    return row === undefined ? [] : [{ line, row }];
  });
  const columns = table.head.cells.map((cell, at) => ({
    at,
    text: cell.text,
    column: columnName(cell, facts.measurement.columns),
  }));
  const recorded = columns.filter(({ column }) =>
    isRecorded(
      facts,
      rows.map(({ row }) => row),
      column,
    ),
  );
  const worked = told
    ? workedTerms(
        facts,
        columns.map(({ column }) => column),
        rows.map(({ row }) => row),
      )
    : [];
  if (rows.length === 0 || recorded.length + worked.length === 0) return null;
  return {
    header: [...recorded.map(({ text }) => plainWords(text)), ...worked],
    rows: rows.map(({ line, row }) => [
      ...recorded.map(
        ({ at }): CardCell => ({
          text: plainWords(line.cells[at]?.text ?? ''),
          quantity: null,
          isWorkedOut: false,
        }),
      ),
      ...worked.map(term => workedCell(facts, termSubject(term, row.number))),
    ]),
  };
}

/** Whether a column holds what was seen or given, in every row that it has. */
function isRecorded(facts: Facts, rows: readonly Row[], column: Column): boolean {
  switch (column.kind) {
    case 'label':
    case 'counter':
      return true;
    case 'unknown':
    case 'circular part':
      return false;
    case 'own':
      return (
        facts.measurement.columns.has(column.name) && !rows.some(row => isClaimed(facts, row, column.name))
      );
    case 'term': {
      const { name } = column.term;
      return column.term.kind === 'observable' && !rows.some(row => isClaimed(facts, row, name));
    }
  }
}

function isClaimed({ measurement }: Facts, row: Row, name: string): boolean {
  return measurement.claims.some(
    ({ subject }) =>
      (subject.kind === 'term' && subject.term === name && subject.row === row.number) ||
      (subject.kind === 'own' && subject.name === name && subject.row === row.number),
  );
}

/** What follows row by row: what the table has columns for, and the readings. */
function workedTerms(
  facts: Facts,
  columns: readonly Column[],
  rows: readonly Row[],
): readonly (ComputedTerm | ObservableTerm)[] {
  const typed = columns.flatMap(column =>
    column.kind === 'term' &&
    (column.term.kind === 'computed' || rows.some(row => isClaimed(facts, row, column.term.name)))
      ? [column.term.name as ComputedTerm | ObservableTerm]
      : [],
  );
  const usual: readonly ComputedTerm[] = facts.term('zero error').ok
    ? ['observed reading', 'corrected reading']
    : ['observed reading'];
  return [...new Set([...typed, ...usual])].filter(term =>
    rows.some(row => facts.value(termSubject(term, row.number)).ok),
  );
}

function workedCell(facts: Facts, subject: Subject): CardCell {
  const value = writtenValue(facts, subject);
  return value === null
    ? { text: '', quantity: null, isWorkedOut: true }
    : { text: value.text, quantity: value.quantity, isWorkedOut: true };
}
