import { rightValue } from '../checks/right-value.ts';
import type { Step } from '../engine/derivation.ts';
import type { Expression } from '../engine/expression.ts';
import { readingsOf } from '../language/facts-position.ts';
import type { RowNumber, Subject } from '../language/measurement.ts';
import type { ObservableTerm } from '../language/term-names.ts';
import { type Setting, termSubject, termValue } from './setting.ts';
import { written } from './step-parts.ts';
import { mannerOf, recordedPlaces } from './worked-claim.ts';
import { exactValue, plainNumber } from './written-value.ts';

/** So many rows of a table are worked one by one; of more the first is, and the rest stand in a table. */
export const ROWS_IN_FULL = 3;

/** No table of a working is longer. */
const MOST_ROWS = 60;

const OBSERVED: readonly ObservableTerm[] = [
  'main scale reading',
  'linear scale reading',
  'full rotations',
  'circular scale reading',
  'coinciding division',
];

const SHORT: Readonly<Partial<Record<ObservableTerm, string>>> = {
  'main scale reading': 'MSR',
  'linear scale reading': 'LSR',
  'circular scale reading': 'CSR',
  'coinciding division': 'n',
};

/**
 * The readings of the other rows in the same way, below the working of the first: observations and results side by side.
 *
 * Below the corrected reading where there is one, else below the observed.
 */
export function otherRows(
  setting: Setting,
  term: Extract<Subject, { readonly kind: 'term' }>['term'],
  row: RowNumber,
): readonly Step[] {
  const { facts } = setting;
  const { rows } = facts.measurement;
  if (row !== 1 || rows.length <= ROWS_IN_FULL) return [];
  const isCorrected = termValue(facts, 'corrected reading', 1) !== null;
  if (term !== (isCorrected ? 'corrected reading' : 'observed reading')) return [];
  const shown = rows.slice(1, MOST_ROWS + 1);
  const columns = OBSERVED.filter(name => shown.some(other => other.readings.has(name)));
  const results = ['observed reading', ...(isCorrected ? ['corrected reading'] : [])] as const;
  return [
    {
      kind: 'table',
      reason: 'The other rows in the same way',
      header: ['row', ...columns.map(name => SHORT[name] ?? name), ...results],
      rows: shown.map(other => [
        other.label ?? String(other.number),
        ...columns.map(name => observedCell(setting, name, other.number)),
        ...results.map(name => resultCell(setting, termSubject(name as 'observed reading', other.number))),
      ]),
    },
  ];
}

/** A cell as it was recorded. */
function observedCell(setting: Setting, term: ObservableTerm, row: number): Expression | string {
  const { facts } = setting;
  const value = termValue(facts, term, row);
  const observation = readingsOf(facts, row).get(term);
  if (value === null || observation === undefined) return '';
  if (observation.kind === 'between' && observation.low.kind === 'count' && observation.high.kind === 'count')
    return `between ${observation.low.count.text} and ${observation.high.count.text}`;
  if (value.dimension.length === 0 && value.dimension.angle === 0) return plainNumber(value.scalar);
  const manner = mannerOf(setting, termSubject('observed reading', row));
  return exactValue(value, { ...manner, atLeast: recordedPlaces(facts, term, row, manner.unit) });
}

function resultCell(setting: Setting, subject: Subject): Expression | string {
  const { unit, sexagesimal } = mannerOf(setting, subject);
  const right = rightValue(setting.facts, subject, unit, sexagesimal);
  return right === null ? '' : written(right.text, right.quantity);
}
