import { mean } from '../engine/evaluation.ts';
import type * as Q from '../engine/quantity.ts';
import { meanAbsoluteError, standardDeviation } from '../engine/statistics.ts';
import { type Answer, computed, lacking, missing } from './answer.ts';
import { evaluateStated } from './evaluate-in.ts';
import { type Facts, subjectText } from './facts.ts';
import type { Subject } from './measurement.ts';

/** The mean of the observed or corrected readings over the table's rows. */
export function meanReading(facts: Facts, term: 'observed reading' | 'corrected reading'): Answer {
  const values = rowReadings(facts, term);
  if (!values.ok) return values.answer;
  return outcome(mean(values.values));
}

type Values =
  | { readonly ok: true; readonly values: readonly Q.Quantity[] }
  | { readonly ok: false; readonly answer: Answer };

/** The readings of all rows; of a block without a table its single reading. */
function rowReadings(facts: Facts, term: 'observed reading' | 'corrected reading'): Values {
  const { rows } = facts.measurement;
  if (rows.length === 0) {
    const only = facts.term(term, null);
    return only.ok ? { ok: true, values: [only.quantity] } : { ok: false, answer: only };
  }
  const values: Q.Quantity[] = [];
  for (const row of rows) {
    const value = facts.term(term, row.number);
    if (!value.ok) return { ok: false, answer: value };
    values.push(value.quantity);
  }
  return { ok: true, values };
}

/**
 * The values that a statistic is taken over: a list, a column of one's own, or the table's readings.
 *
 * Without a subject the corrected readings, where there is a zero check, else the observed ones.
 */
export function valuesOf(facts: Facts, of: Subject | null): Values {
  const { measurement } = facts;
  if (of === null) {
    if (measurement.rows.length === 0 && measurement.readings.size === 0) {
      return { ok: false, answer: missing('of what? write of and the name of the list or column behind it') };
    }
    const corrected = rowReadings(facts, 'corrected reading');
    return corrected.ok ? corrected : rowReadings(facts, 'observed reading');
  }
  if (of.kind === 'own' && of.row === null) {
    const record = measurement.own.get(of.name);
    if (record?.kind === 'list') {
      const values: Q.Quantity[] = [];
      for (const stated of record.values) {
        const value = evaluateStated(facts, stated);
        if (!value.ok) return { ok: false, answer: value };
        values.push(value.quantity);
      }
      return { ok: true, values };
    }
    if (measurement.columns.has(of.name)) {
      const values: Q.Quantity[] = [];
      for (const row of measurement.rows) {
        if (!row.own.has(of.name)) continue;
        const value = facts.value({ ...of, row: row.number });
        if (!value.ok) return { ok: false, answer: value };
        values.push(value.quantity);
      }
      return { ok: true, values };
    }
  }
  if (
    of.kind === 'term' &&
    of.row === null &&
    (of.term === 'observed reading' || of.term === 'corrected reading')
  ) {
    return rowReadings(facts, of.term);
  }
  if (of.kind === 'term' && (of.term === 'mean observed reading' || of.term === 'mean corrected reading')) {
    return rowReadings(facts, of.term === 'mean observed reading' ? 'observed reading' : 'corrected reading');
  }
  if (of.kind === 'statistic' && of.statistic === 'mean') return valuesOf(facts, of.of);
  return {
    ok: false,
    answer: missing(`${subjectText(of)} is a single value; only a list, a column or a table has a mean`),
  };
}

/** The mean, the mean absolute error or the standard deviation (with n - 1) of repeated values. */
export function listStatistic(
  facts: Facts,
  statistic: 'mean' | 'mean absolute error' | 'standard deviation',
  of: Subject | null,
): Answer {
  const { rows, readings } = facts.measurement;
  if (of === null && rows.length === 0 && readings.size === 0)
    return missing(
      `the ${statistic} of what? write ${statistic} of and the name of the list or column behind it`,
    );
  const values = valuesOf(facts, of);
  if (!values.ok) return values.answer;
  if (values.values.length === 0) return missing(`there are no values to take the ${statistic} of`);
  if (statistic === 'mean') return outcome(mean(values.values));
  if (statistic === 'mean absolute error') return outcome(meanAbsoluteError(values.values));
  if (values.values.length < 2) return missing('a standard deviation needs at least two values');
  return outcome(standardDeviation(values.values));
}

function outcome(value: Q.Outcome): Answer {
  return value.ok
    ? computed(value.quantity)
    : lacking({ kind: 'trouble', trouble: value.trouble, span: null });
}
