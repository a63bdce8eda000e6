import { mean } from '../engine/evaluation.ts';
import type * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import { meanAbsoluteError, standardDeviation } from '../engine/statistics.ts';
import { type Answer, computed, lacking, missing } from './answer.ts';
import { evaluateStated } from './evaluate-in.ts';
import { type Facts, subjectText } from './facts.ts';
import type { Subject } from './measurement.ts';
import { isFullCircle, onCircle } from './shown-position.ts';

/** The mean of the observed or corrected readings over the table's rows. */
export function meanReading(facts: Facts, term: 'observed reading' | 'corrected reading'): Answer {
  const values = rowReadings(facts, term);
  return values.ok ? meanOf(facts, values) : values.answer;
}

/** The mean; of readings on both sides of a circle's zero as it is read there, 359° 59′ and not -1′. */
function meanOf(facts: Facts, { values, isAroundZero = false }: Extract<Values, { ok: true }>): Answer {
  const answer = outcome(mean(values));
  return answer.ok && isAroundZero ? { ...answer, quantity: onCircle(facts, answer.quantity) } : answer;
}

type Values =
  | {
      readonly ok: true;
      readonly values: readonly Q.Quantity[];
      /** Whether they are readings on both sides of a circle's zero, those before it told as negative. */
      readonly isAroundZero?: boolean;
    }
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
  const around = isFullCircle(facts) ? aroundZero(values) : null;
  return around === null ? { ok: true, values } : { ok: true, values: around, isAroundZero: true };
}

const HALF_CIRCLE = R.rational(180);
const QUARTER = R.rational(90);

/**
 * Readings of a full circle that lie close together on both sides of its zero, told from there: -2′ and 2′ for 359° 58′
 * and 0° 2′. Null for others: what is as far apart as a quarter of the circle is no repeated reading.
 */
function aroundZero(values: readonly Q.Quantity[]): readonly Q.Quantity[] | null {
  const degrees = values.map(({ scalar, dimension }) =>
    dimension.angle === 1 && S.isExact(scalar) ? S.realValue(scalar) : null,
  );
  const known = degrees.filter(value => value !== null);
  if (known.length < degrees.length || !known.some(value => R.compare(value, HALF_CIRCLE) > 0)) return null;
  const told = known.map(value =>
    R.compare(value, HALF_CIRCLE) > 0 ? R.subtract(value, R.rational(360)) : value,
  );
  const [least, most] = [told.reduce(R.min), told.reduce(R.max)];
  const isClose = R.compare(R.subtract(most, least), QUARTER) < 0;
  const isOnBoth = R.sign(least) < 0 && R.sign(most) >= 0;
  return isClose && isOnBoth
    ? values.map((value, index) => ({ ...value, scalar: S.real(told[index]!) }))
    : null;
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
  if (statistic === 'mean') return meanOf(facts, values);
  if (statistic === 'mean absolute error') return outcome(meanAbsoluteError(values.values));
  if (values.values.length < 2) return missing('a standard deviation needs at least two values');
  return outcome(standardDeviation(values.values));
}

function outcome(value: Q.Outcome): Answer {
  return value.ok
    ? computed(value.quantity)
    : lacking({ kind: 'trouble', trouble: value.trouble, span: null });
}
