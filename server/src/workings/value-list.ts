import type { Expression } from '../engine/expression.ts';
import * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import { DIMENSIONLESS, type Unit, unitShown } from '../engine/unit.ts';
import type { Facts } from '../language/facts.ts';
import { valuesOf } from '../language/facts-statistics.ts';
import type { Stated, Subject } from '../language/measurement.ts';
import { putInText, unitWritten, writtenValue } from './put-in.ts';
import { joined, written } from './step-parts.ts';
import { nameIn } from './subject-name.ts';

/** The values that a mean or a scatter is taken over, in one unit. */
export interface ValueList {
  /** What they are values of: `T`, `corrected reading`. */
  readonly name: string;
  /** The subject that a mean of them is. */
  readonly mean: Subject;
  readonly values: readonly Q.Quantity[];
  /** The subject of each value; null for those of a list, which have no names. */
  readonly subjects: readonly (Subject | null)[];
  readonly unit: Unit | null;
  /** Each value's number in that unit; null for a value in letters. */
  readonly numbers: readonly (R.Rational | null)[];
  /** Decimal places that all of them are written with; null where some do not end. */
  readonly places: number | null;
  /** Degrees and minutes as text, where the block writes angles so. */
  readonly angles: readonly string[] | null;
  /** Whether they are readings on both sides of a circle's zero, those before it told as negative. */
  readonly isAroundZero: boolean;
}

/** The values behind a mean, a mean absolute error or a standard deviation; null where there are none. */
export function listedValues(facts: Facts, subject: Subject): ValueList | null {
  const of = behind(subject);
  const list = valuesOf(facts, of);
  const [first] = list.ok ? list.values : [];
  if (!list.ok || first === undefined) return null;
  const { isAroundZero = false } = list;
  const readings = of?.kind === 'own' ? null : readingsBehind(facts, of);
  const subjects = list.values.map((_, index) => valueSubject(facts, of, readings, index));
  const mean = meanOf(of, readings);
  const unit = unitOf(facts, subject, mean, first);
  const numbers = list.values.map(value => Q.numberIn(value, unit));
  const texts = subjects.map(one => (one?.kind === 'term' ? (writtenValue(facts, one)?.text ?? '') : ''));
  return {
    name: of?.kind === 'own' ? nameIn(facts, of) : (readings ?? 'observed reading'),
    mean,
    values: list.values,
    subjects,
    unit,
    numbers,
    places: placesOf(numbers, typedPlaces(facts, of, readings, unit)),
    angles:
      !isAroundZero && texts.every(text => /[°′″]/.test(text)) && texts.some(text => /[′″]/.test(text))
        ? texts
        : null,
    isAroundZero,
  };
}

function behind(subject: Subject): Subject | null {
  if (subject.kind !== 'statistic')
    return subject.kind === 'term' &&
      subject.term.startsWith('mean ') &&
      subject.term !== 'mean absolute error'
      ? subject
      : null;
  return subject.of.kind === 'statistic' && subject.of.statistic === 'mean' ? subject.of.of : subject.of;
}

type Reading = 'observed reading' | 'corrected reading';

/** Which readings of the table they are: the corrected ones where nothing is said and there are some. */
function readingsBehind(facts: Facts, of: Subject | null): Reading {
  if (of?.kind === 'term')
    return of.term.endsWith('observed reading') ? 'observed reading' : 'corrected reading';
  const rows = facts.measurement.rows.length === 0 ? [null] : facts.measurement.rows.map(row => row.number);
  return rows.every(row => facts.term('corrected reading', row).ok)
    ? 'corrected reading'
    : 'observed reading';
}

function valueSubject(
  facts: Facts,
  of: Subject | null,
  reading: Reading | null,
  index: number,
): Subject | null {
  const { rows } = facts.measurement;
  if (reading !== null) return { kind: 'term', term: reading, row: rows[index]?.number ?? null, block: null };
  if (of?.kind !== 'own' || !facts.measurement.columns.has(of.name)) return null;
  const row = rows.filter(({ own }) => own.has(of.name))[index];
  return row === undefined ? null : { ...of, row: row.number };
}

function meanOf(of: Subject | null, reading: Reading | null): Subject {
  if (reading === null && of !== null) return { kind: 'statistic', statistic: 'mean', of, from: null };
  const term = reading === 'observed reading' ? 'mean observed reading' : 'mean corrected reading';
  return { kind: 'term', term, row: null, block: null };
}

function unitOf(facts: Facts, subject: Subject, mean: Subject, first: Q.Quantity): Unit | null {
  for (const unit of [unitWritten(facts, subject), unitWritten(facts, mean), first.unit])
    if (unit !== null && Q.inUnit(first, unit) !== null) return unit;
  return first.unit;
}

/** The places that the values were recorded with, or that the least count has. */
function typedPlaces(facts: Facts, of: Subject | null, reading: Reading | null, unit: Unit | null): number {
  const factor = unit?.factor ?? R.ONE;
  const inPlaces = (step: R.Rational | null): number => {
    const places = step === null ? null : R.terminatingPlaces(R.divide(step, factor) ?? R.ONE);
    return places === null || places > MOST_PLACES ? 0 : places;
  };
  if (reading !== null) {
    const least = facts.term('least count');
    return inPlaces(least.ok ? S.realValue(least.quantity.scalar) : null);
  }
  if (of?.kind !== 'own') return 0;
  const record = facts.measurement.own.get(of.name);
  const stated: readonly (Stated | undefined)[] =
    record?.kind === 'list' ? record.values : facts.measurement.rows.map(row => row.own.get(of.name)?.stated);
  return Math.max(
    0,
    ...stated.map(one => {
      const literal = one?.expression.kind === 'negate' ? one.expression.of : one?.expression;
      return inPlaces(literal?.kind === 'literal' ? literal.place : null);
    }),
  );
}

const MOST_PLACES = 8;

function placesOf(numbers: readonly (R.Rational | null)[], least: number): number | null {
  let most = least;
  for (const number of numbers) {
    const needed = number === null ? null : R.terminatingPlaces(number);
    if (needed === null || needed > MOST_PLACES) return null;
    most = Math.max(most, needed);
  }
  return most;
}

/** The sum of the values, written out and added up; null where they cannot be written exactly. */
export function sumOf({ numbers, places, unit, angles, values }: ValueList): {
  readonly written: Expression;
  readonly total: Expression | null;
} | null {
  if (angles !== null) {
    const terms = angles.map((text, index) => putInText(text, values[index]!));
    return { written: added(terms), total: null };
  }
  const exact = numbers.filter(number => number !== null);
  if (places === null || exact.length < numbers.length) return null;
  return { written: sumIn(exact, places, unit), total: numberIn(exact.reduce(R.add, R.ZERO), places, unit) };
}

/** `(2.63 + 2.56) s`: the unit once behind the bracket where it is a simple one. */
export function sumIn(numbers: readonly R.Rational[], places: number, unit: Unit | null): Expression {
  const isSimple = unit !== null && /^[a-zA-Zµ]+$/.test(unit.symbol) && unit.dimension.angle === 0;
  if (!isSimple || numbers.length === 1) return added(numbers.map(number => numberIn(number, places, unit)));
  return { kind: 'measured', of: added(numbers.map(number => numberIn(number, places, null))), unit };
}

/** A number with its unit: `13.12 s`, an opposite where it is negative. */
export function numberIn(number: R.Rational, places: number, unit: Unit | null): Expression {
  const size = R.abs(number);
  const quantity = unit === null ? Q.plain(size) : Q.quantity(size, unit);
  const put = written(Q.shownDecimal(quantity, unit ?? DIMENSIONLESS, places), quantity);
  return R.sign(number) < 0 ? { kind: 'negate', of: put } : put;
}

function added(terms: readonly Expression[]): Expression {
  return terms
    .slice(1)
    .reduce(
      (sum, term) => (term.kind === 'negate' ? joined('subtract', sum, term.of) : joined('add', sum, term)),
      terms[0]!,
    );
}

/** How a table's heading says what its numbers are measured in: ` (s)`. */
export function inBrackets(unit: Unit | null, power = 1): string {
  const shown = unit === null ? '' : unitShown(unit);
  if (shown === '') return '';
  return power === 1 ? ` (${shown})` : ` (${/[/^ ]/.test(shown) ? `(${shown})` : shown}²)`;
}
