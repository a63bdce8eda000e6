import { isPlain, sameDimension } from '../engine/dimension.ts';
import { mean, rewrite, visit } from '../engine/evaluation.ts';
import type { Expression } from '../engine/expression.ts';
import * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import { roundsTo } from '../engine/rounds-to.ts';
import * as S from '../engine/scalar.ts';
import { evaluateIn, evaluateStated } from './evaluate-in.ts';
import type { Facts } from './facts.ts';
import { valuesOf } from './facts-statistics.ts';
import type { Claim, Subject } from './measurement.ts';
import { subjectKey } from './names.ts';
import type { ComputedTerm, ObservableTerm } from './term-names.ts';

/** A value of the block that a number in a formula may stand for. */
export interface Known {
  /** Null for one value of a list, which has no name of its own. */
  readonly subject: Subject | null;
  readonly quantity: Q.Quantity;
}

type Literal = Extract<Expression, { readonly kind: 'literal' }>;

const TERMS: readonly (ComputedTerm | ObservableTerm)[] = [
  'corrected reading',
  'observed reading',
  'mean corrected reading',
  'mean observed reading',
  'zero error',
  'zero correction',
  'least count',
  'pitch',
  'vernier scale reading',
  'mean absolute error',
  'standard deviation',
  'main scale reading',
  'linear scale reading',
  'coinciding division',
  'circular scale reading',
];

/**
 * All values that the block determines by now, the own quantities first; `except` is the one that is being worked out.
 *
 * `aboveOnly` leaves out what is claimed below it: a definition by mere numbers rests on lines above, and what it is
 * must not depend on which of two such lines is asked for first.
 */
export function knownValues(facts: Facts, except: string, aboveOnly = false): readonly Known[] {
  const known: Known[] = [];
  const add = (subject: Subject): void => {
    const answer = facts.value(subject);
    if (answer.ok) known.push({ subject, quantity: answer.quantity });
  };
  const { measurement } = facts;
  for (const [name, record] of measurement.own) {
    if (name === except) continue;
    const subject: Subject = { kind: 'own', name, row: null, block: null };
    if (record.kind === 'list') {
      add({ kind: 'statistic', statistic: 'mean', of: subject, from: null });
      for (const value of record.values) {
        const answer = evaluateStated(facts, value);
        if (answer.ok) known.push({ subject: null, quantity: answer.quantity });
      }
    } else add(subject);
  }
  for (const claim of measurement.claims) {
    const isItself = claim.subject.kind === 'own' && claim.subject.name === except;
    if (isItself && aboveOnly) break;
    if (claim.subject.kind === 'own' && !isItself) add(claim.subject);
    if (claim.subject.kind === 'statistic') add(claim.subject);
  }
  for (const row of [null, ...measurement.rows.map(({ number }) => number).slice(0, 60)]) {
    for (const term of TERMS) {
      if (row === null || term === 'corrected reading' || term === 'observed reading')
        add({ kind: 'term', term, row, block: null });
    }
    for (const [name] of row === null ? [] : measurement.rows[row - 1]!.own)
      add({ kind: 'own', name, row, block: null });
  }
  for (const name of measurement.columns)
    add({
      kind: 'statistic',
      statistic: 'mean',
      of: { kind: 'own', name, row: null, block: null },
      from: null,
    });
  return known;
}

export interface Traced {
  readonly expression: Expression;
  /** Numbers that stand for nothing in the block. */
  readonly untraced: readonly Literal[];
}

/**
 * A formula of mere numbers with the block's values in their place: `1.06 g / 0.136 cm^3` is m / v.
 *
 * A number stands for a value when it is equal to it or rounds it correctly. π as 3.14, 3.1416 and 22/7, and whole
 * numbers to 12, stand for themselves.
 */
export function tracedExpression(facts: Facts, expression: Expression, except: string): Traced {
  const untraced: Literal[] = [];
  const known = knownValues(facts, except, true);
  const result = rewrite(expression, part => {
    if (part.kind !== 'literal') return null;
    const match = bestMatch(part, known);
    if (match !== null && match.subject === null) return part;
    if (match !== null && match.subject !== null)
      return { kind: 'name', key: keyFor(facts, match.subject), text: part.text };
    if (!standsForItself(part)) untraced.push(part);
    return part;
  });
  return { expression: result, untraced };
}

function keyFor(facts: Facts, subject: Subject): string {
  const key = subjectKey(subject);
  (facts.measurement.subjects as Map<string, Subject>).set(key, subject);
  return key;
}

function bestMatch(literal: Literal, known: readonly Known[]): Known | null {
  if (isSmallWhole(literal) || isPi(literal)) return null;
  const comparable = known.filter(value => matchesKind(literal, value.quantity));
  const stated = S.realValue(literal.quantity.scalar);
  if (stated === null) return null;
  const equal = comparable.find(value => R.equals(R.abs(numberAs(literal, value.quantity)), R.abs(stated)));
  if (equal !== undefined) return equal;
  const { place } = literal;
  if (place === null) return null;
  return comparable.find(value => roundsTo(numberAs(literal, value.quantity), stated, place)) ?? null;
}

/** A number with its unit stands for a value of its kind; a bare one for any value, in the unit it is shown in. */
function matchesKind(literal: Literal, value: Q.Quantity): boolean {
  if (S.realValue(value.scalar) === null) return false;
  return isBare(literal) || sameDimension(literal.quantity.dimension, value.dimension);
}

function isBare(literal: Literal): boolean {
  return literal.quantity.unit === null && isPlain(literal.quantity.dimension);
}

function numberAs(literal: Literal, value: Q.Quantity): R.Rational {
  const number = isBare(literal) && value.unit !== null ? Q.inUnit(value, value.unit) : value.scalar;
  return S.realValue(number ?? value.scalar) ?? R.ZERO;
}

/** Numbers that need no origin: π in its usual roundings, whole numbers to 12, the hundred of per cent and the like. */
export function standsForItself(literal: Literal): boolean {
  return isSmallWhole(literal) || isPi(literal) || isUsual(literal);
}

function isSmallWhole({ quantity }: Literal): boolean {
  const value = isPlain(quantity.dimension) ? S.realValue(quantity.scalar) : null;
  return value !== null && R.isInteger(value) && R.compare(R.abs(value), R.rational(12)) <= 0;
}

function isPi({ quantity }: Literal): boolean {
  const value = isPlain(quantity.dimension) ? S.realValue(quantity.scalar) : null;
  return value !== null && PI_ROUNDINGS.some(pi => R.equals(pi, value));
}

function isUsual({ quantity }: Literal): boolean {
  const value = isPlain(quantity.dimension) ? S.realValue(quantity.scalar) : null;
  return value !== null && USUAL.some(number => R.equals(number, value));
}

/** Per cent, halves, full circles, thousands. */
const USUAL = [R.rational(100), R.HALF, R.rational(90), R.rational(180), R.rational(360), R.rational(1000)];

const PI_ROUNDINGS = [
  R.rational('3.14'),
  R.rational('3.142'),
  R.rational('3.1416'),
  R.rational('3.14159'),
  R.rational(22, 7),
];

/** All number literals of a formula. */
export function literalsIn(expression: Expression): readonly Literal[] {
  const literals: Literal[] = [];
  visit(expression, part => {
    if (part.kind === 'literal') literals.push(part);
  });
  return literals;
}

/** All values that numbers put into a link may stand for: known values, their errors, and what the rest of the note determines. */
export function knownNumbers(facts: Facts, claim: Claim, except: string): readonly Q.Quantity[] {
  const values = knownValues(facts, except).map(({ quantity }) => quantity);
  const { measurement } = facts;
  for (const [name, record] of measurement.own) {
    const error =
      record.kind === 'value' ? record.given.stated.error : record.kind === 'letter' ? record.error : null;
    const value = error === null ? null : evaluateIn(facts, error);
    if (value?.ok) values.push(value.quantity);
    if (name !== except && record.kind === 'value')
      addError(facts, { kind: 'own', name, row: null, block: null }, values);
  }
  const blocks = new Set(
    [...measurement.subjects.values()].flatMap(subject =>
      'block' in subject && subject.block !== null ? [subject.block] : [],
    ),
  );
  for (const block of blocks) {
    const other = facts.note.named(block);
    if (other !== null && other !== facts)
      values.push(...knownValues(other, '').map(({ quantity }) => quantity));
  }
  if (claim.subject.kind === 'statistic') {
    values.push(...valuesBehind(facts, claim.subject));
  }
  const { vernierLines, scales } = facts.scales();
  if (vernierLines !== null) values.push(Q.plain(vernierLines));
  for (const row of scales.rows)
    if (row.dimension !== null)
      values.push({ scalar: row.constant, dimension: row.dimension, unit: facts.scales().unit });
  return values;
}

function addError(facts: Facts, subject: Subject, values: Q.Quantity[]): void {
  const error = facts.value({ kind: 'statistic', statistic: 'absolute error', of: subject, from: null });
  if (error.ok && !S.isZero(error.quantity.scalar)) values.push(error.quantity);
}

/** What an error or a scatter is worked out from: the value, its error, the values of its list. */
function valuesBehind(
  facts: Facts,
  subject: Extract<Subject, { readonly kind: 'statistic' }>,
): readonly Q.Quantity[] {
  const values: Q.Quantity[] = [];
  for (const statistic of [
    'mean',
    'mean absolute error',
    'standard deviation',
    'absolute error',
    'relative error',
    'standard uncertainty',
  ] as const) {
    if (statistic === subject.statistic) continue;
    const answer = facts.value({ kind: 'statistic', statistic, of: subject.of, from: null });
    if (answer.ok) values.push(answer.quantity);
  }
  const value = facts.value(subject.of);
  if (value.ok) values.push(value.quantity);
  const { coverageFactor } = facts.measurement;
  for (const stated of [subject.from, coverageFactor?.expression ?? null]) {
    const answer = stated === null ? null : evaluateIn(facts, stated);
    if (answer?.ok) values.push(answer.quantity);
  }
  const list = valuesOf(facts, subject.of);
  if (list.ok && list.values.length <= 100) {
    values.push(...list.values);
    const middle = mean(list.values);
    for (const one of middle.ok ? list.values : []) {
      const difference = Q.subtract(one, (middle as { quantity: Q.Quantity }).quantity);
      if (difference.ok) values.push(difference.quantity);
    }
  }
  return values;
}

/** Whether a number is one of the values, or rounds one of them. */
export function isKnownNumber(literal: Literal, values: readonly Q.Quantity[]): 'exact' | 'rounded' | 'no' {
  const stated = S.realValue(literal.quantity.scalar);
  if (stated === null) return 'no';
  const size = R.abs(stated);
  const numbers = values
    .filter(value => matchesKind(literal, value))
    .map(value => R.abs(numberAs(literal, value)));
  const { place } = literal;
  // A number may be equal to one value and round another: then it is taken as rounded, which allows for both.
  if (place !== null && numbers.some(number => !R.equals(number, size) && roundsTo(number, size, place)))
    return 'rounded';
  return numbers.some(number => R.equals(number, size)) ? 'exact' : 'no';
}
