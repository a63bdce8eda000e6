import { isPlain } from '../engine/dimension.ts';
import type { Expression } from '../engine/expression.ts';
import * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import { meanAbsoluteError, standardDeviation, standardDeviationOfMean } from '../engine/statistics.ts';
import { type Answer, computed, lacking, missing, REPORTED } from './answer.ts';
import { evaluateIn } from './evaluate-in.ts';
import type { Facts } from './facts.ts';
import { valuesOf } from './facts-statistics.ts';
import type { Stated, Subject } from './measurement.ts';

/** Something measured, given or counted that errors come from. */
export interface Leaf {
  readonly facts: Facts;
  readonly subject: Subject;
}

/**
 * `worst`: the error as stated or by the error rule; `standard`: as a standard uncertainty; `relative`: as a part of
 * the value; `data`: what the written places carry, for judging how many places a result may have.
 */
export type ErrorMode = 'worst' | 'standard' | 'relative' | 'data';

/** The error of one measured thing; nought for what counts as exact. */
export function leafError(leaf: Leaf, mode: ErrorMode): Answer {
  const absolute = absoluteError(leaf, mode === 'relative' ? 'worst' : mode);
  if (mode !== 'relative') return absolute;
  const share = letterShare(leaf);
  if (share !== null) return share;
  if (!absolute.ok) return absolute;
  const value = measuredValue(leaf);
  if (!value.ok) return value;
  if (S.isZero(absolute.quantity.scalar)) return computed(Q.plain(R.ZERO));
  const quotient = Q.divide(absolute.quantity, value.quantity);
  const size = quotient.ok ? Q.abs(quotient.quantity) : quotient;
  return size.ok
    ? computed({ ...size.quantity, unit: null })
    : lacking({ kind: 'trouble', trouble: size.trouble, span: null });
}

function measuredValue({ facts, subject }: Leaf): Answer {
  const isList = subject.kind === 'own' && facts.measurement.own.get(subject.name)?.kind === 'list';
  return facts.value(isList ? { kind: 'statistic', statistic: 'mean', of: subject, from: null } : subject);
}

/** `m: any mass ± 2 %`: the error of a letter is known as a part of it only. */
function letterShare({ facts, subject }: Leaf): Answer | null {
  if (subject.kind !== 'own') return null;
  const record = facts.measurement.own.get(subject.name);
  if (record?.kind !== 'letter') return null;
  if (record.error === null) return computed(Q.plain(R.ZERO));
  const error = evaluateIn(facts, record.error);
  if (!error.ok) return error;
  if (isPercent(error.quantity)) return computed({ ...error.quantity, unit: null });
  return missing(
    `the error of ${subject.name} is a length or the like, but its value is open, so its relative error cannot be worked out: give it in per cent`,
  );
}

function isPercent(quantity: Q.Quantity): boolean {
  return isPlain(quantity.dimension) && quantity.unit?.symbol === '%';
}

function absoluteError(leaf: Leaf, mode: 'worst' | 'standard' | 'data'): Answer {
  const { facts, subject } = leaf;
  const value = measuredValue(leaf);
  if (!value.ok) return value;
  switch (subject.kind) {
    case 'own':
      return ownError(facts, subject, value.quantity, mode);
    case 'statistic':
      return spread(facts, subject.of, value.quantity, mode);
    case 'term':
      switch (subject.term) {
        case 'observed reading':
        case 'corrected reading':
        case 'mean observed reading':
        case 'mean corrected reading': {
          const given = facts.measurement.givens.get(subject.term);
          if (given !== undefined && subject.row === null && value.source === 'given')
            return statedError(facts, given.stated, value.quantity, mode);
          const read =
            subject.term === 'corrected reading' && subject.row === null
              ? facts.term('observed reading')
              : value;
          const observed = facts.measurement.givens.get('observed reading');
          if (read.ok && read.source === 'given' && observed !== undefined)
            return statedError(facts, observed.stated, value.quantity, mode);
          return readingError(facts, subject.term.startsWith('mean'), value.quantity, mode);
        }
        // A reading put together by hand, LSR + CSR × LC, is as uncertain as the reading itself.
        case 'main scale reading':
        case 'linear scale reading':
        case 'coinciding main mark':
          return readingError(facts, false, value.quantity, mode);
        default: {
          const given = facts.measurement.givens.get(subject.term as never);
          return given === undefined || value.source !== 'given'
            ? exact(value.quantity)
            : statedError(facts, given.stated, value.quantity, mode);
        }
      }
    case 'division':
    case 'count':
    case 'unknown':
      return exact(value.quantity);
  }
}

function ownError(
  facts: Facts,
  subject: Extract<Subject, { readonly kind: 'own' }>,
  value: Q.Quantity,
  mode: 'worst' | 'standard' | 'data',
): Answer {
  const cell =
    subject.row === null ? undefined : facts.measurement.rows[subject.row - 1]?.own.get(subject.name);
  if (cell !== undefined) return statedError(facts, cell.stated, value, mode);
  const record = facts.measurement.own.get(subject.name);
  if (record?.kind === 'value') return statedError(facts, record.given.stated, value, mode);
  if (record?.kind === 'letter')
    return record.error === null ? exact(value) : statedBy(facts, record.error, value);
  if (record?.kind === 'list' || facts.measurement.columns.has(subject.name))
    return spread(facts, subject, value, mode);
  return exact(value);
}

function exact(like: Q.Quantity): Answer {
  return computed({ ...like, scalar: S.NOUGHT });
}

/** What stands behind ±; without it nothing, or half a unit of the last decimal place in `data` mode. */
function statedError(
  facts: Facts,
  stated: Stated,
  value: Q.Quantity,
  mode: 'worst' | 'standard' | 'data',
): Answer {
  if (stated.error !== null) return statedBy(facts, stated.error, value);
  if (mode !== 'data') return exact(value);
  const { expression } = stated;
  const literal = expression.kind === 'negate' ? expression.of : expression;
  if (literal.kind !== 'literal' || literal.place === null || !/[.]/.test(literal.text)) return exact(value);
  return computed({ ...value, scalar: S.real(R.multiply(literal.place, R.HALF)) });
}

function statedBy(facts: Facts, error: Expression, value: Q.Quantity): Answer {
  const stated = evaluateIn(facts, error);
  if (!stated.ok) return stated;
  if (!isPercent(stated.quantity) || isPercent(value))
    return { ...stated, quantity: likeValue(stated.quantity, value) };
  const share = Q.multiply(value, { ...stated.quantity, unit: null });
  const size = share.ok ? Q.abs(share.quantity) : share;
  return size.ok ? computed(size.quantity) : lacking({ kind: 'trouble', trouble: size.trouble, span: null });
}

/** A bare error takes the value's unit: `100 ± 5` volts. */
function likeValue(error: Q.Quantity, value: Q.Quantity): Q.Quantity {
  return isPlain(error.dimension) && error.unit === null && value.unit !== null
    ? Q.quantity(error.scalar, value.unit)
    : error;
}

/** The error of a reading by the block's error rule; `least count` where nothing is said. */
function readingError(
  facts: Facts,
  isMean: boolean,
  value: Q.Quantity,
  mode: 'worst' | 'standard' | 'data',
): Answer {
  const rule = facts.measurement.errorRule?.rule ?? 'least count';
  if (rule === 'mean absolute error' || rule === 'standard deviation of the mean') {
    return scatter(facts, rule, null, isMean, value);
  }
  const least = facts.term('least count');
  if (!least.ok)
    return least.lack.kind === 'missing'
      ? missing(
          'the error of a reading is its least count here, but nothing determines that: record the scales or an error rule (`error rule: …`)',
        )
      : least;
  const width =
    rule === 'least count'
      ? least.quantity
      : { ...least.quantity, scalar: S.multiply(least.quantity.scalar, S.real(R.HALF)) };
  if (mode !== 'standard') return computed(width);
  return rectangular(width);
}

/** A half-width a becomes a standard uncertainty a/√3. Source: GUM (JCGM 100:2008) 4.3.7. */
function rectangular(width: Q.Quantity): Answer {
  const root = S.sqrt(S.real(R.rational(3)));
  const value = root === null ? null : S.divide(width.scalar, root);
  return value === null ? REPORTED : computed({ ...width, scalar: value });
}

/** The error of a list's or a column's mean: only a rule that speaks of scatter gives it one. */
function spread(facts: Facts, of: Subject, value: Q.Quantity, mode: 'worst' | 'standard' | 'data'): Answer {
  const rule = facts.measurement.errorRule?.rule;
  if (rule === 'mean absolute error' || rule === 'standard deviation of the mean')
    return scatter(facts, rule, of, true, value);
  if (mode === 'data') return exactPlaces(facts, of, value);
  return missing(
    'the values of a list have no least count; say which error their mean has (`error rule: mean absolute error` or `error rule: standard deviation of the mean`)',
  );
}

/** The places of a mean: half the last place of its most exact value. */
function exactPlaces(facts: Facts, of: Subject, value: Q.Quantity): Answer {
  const record = of.kind === 'own' ? facts.measurement.own.get(of.name) : undefined;
  const first = record?.kind === 'list' ? record.values[0] : undefined;
  return first === undefined ? exact(value) : statedError(facts, first, value, 'data');
}

function scatter(
  facts: Facts,
  rule: 'mean absolute error' | 'standard deviation of the mean',
  of: Subject | null,
  isMean: boolean,
  value: Q.Quantity,
): Answer {
  const values = valuesOf(facts, of);
  if (!values.ok) return values.answer;
  if (rule === 'standard deviation of the mean' && values.values.length < 2)
    return missing('a standard deviation needs at least two values');
  const found =
    rule === 'mean absolute error'
      ? meanAbsoluteError(values.values)
      : isMean
        ? standardDeviationOfMean(values.values)
        : standardDeviation(values.values);
  if (!found.ok) return lacking({ kind: 'trouble', trouble: found.trouble, span: null });
  return computed(value.unit === null ? found.quantity : Q.withUnit(found.quantity, value.unit));
}
