import { mean } from '../engine/evaluation.ts';
import * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import { roundsTo } from '../engine/rounds-to.ts';
import * as S from '../engine/scalar.ts';
import { unitWord } from '../engine/unit.ts';
import { evaluateIn } from './evaluate-in.ts';
import type { Facts } from './facts.ts';
import { valuesOf } from './facts-statistics.ts';
import { knownValues } from './known-values.ts';
import type { Claim, Subject } from './measurement.ts';
import type { Literal } from './own-numbers.ts';
import { matchesKind, numberAs } from './trace.ts';

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
    values.push(...valuesBehind(facts, claim.subject), ...shares(facts));
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

/** What the errors of the block's quantities are of their values, as plain numbers and in per cent. */
function shares(facts: Facts): readonly Q.Quantity[] {
  const { own, claims } = facts.measurement;
  const names = new Set([
    ...own.keys(),
    ...claims.flatMap(({ subject }) => (subject.kind === 'own' ? [subject.name] : [])),
  ]);
  const subjects: readonly Subject[] = [
    ...[...names].map((name): Subject => ({ kind: 'own', name, row: null, block: null })),
    ...[...facts.measurement.subjects.values()].filter(({ kind }) => kind === 'term'),
  ];
  return subjects.slice(0, MOST_SHARES).flatMap(of => {
    const value = facts.value(of);
    return (['absolute error', 'standard uncertainty'] as const).flatMap(statistic => {
      const error = value.ok ? facts.value({ kind: 'statistic', statistic, of, from: null }) : value;
      const share = value.ok && error.ok ? Q.divide(error.quantity, value.quantity) : null;
      if (!share?.ok || S.isZero(share.quantity.scalar)) return [];
      return [Q.plain(share.quantity.scalar), Q.withUnit(share.quantity, PERCENT)];
    });
  });
}

const PERCENT = unitWord('%')!;

/** So many quantities' errors are worked out for one link. */
const MOST_SHARES = 40;

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
