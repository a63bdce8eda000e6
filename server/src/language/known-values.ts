import { sameDimension } from '../engine/dimension.ts';
import type * as Q from '../engine/quantity.ts';
import type { Unit } from '../engine/unit.ts';
import { isAboutFormula } from './claim.ts';
import { evaluateStated } from './evaluate-in.ts';
import type { Facts } from './facts.ts';
import type { Claim, Subject } from './measurement.ts';
import { subjectKey } from './names.ts';
import type { ComputedTerm, DivisionTerm, ObservableTerm } from './term-names.ts';

/** A value of the block that a number in a formula may stand for. */
export interface Known {
  /** Null for one value of a list, which has no name of its own, and for a division of a scale. */
  readonly subject: Subject | null;
  readonly quantity: Q.Quantity;
}

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
  'coinciding main mark',
  'circular scale reading',
  'full rotations',
];

const DIVISIONS: readonly DivisionTerm[] = [
  'main scale division',
  'vernier scale division',
  'linear scale division',
];

/**
 * All values that the block determines by now, the own quantities first; `except` is the one that is being worked out.
 *
 * `aboveOnly` leaves out what is claimed below it: a definition by mere numbers rests on lines above, and what it is
 * must not depend on which of two such lines is asked for first.
 */
export function knownValues(facts: Facts, except: string, aboveOnly = false): readonly Known[] {
  const known: Known[] = [];
  const { measurement } = facts;
  const written = unitsWritten(measurement.claims);
  const add = (subject: Subject): void => {
    const answer = facts.value(subject);
    if (!answer.ok) return;
    const { quantity } = answer;
    known.push({ subject, quantity });
    for (const unit of written.get(subjectKey(subject)) ?? [])
      if (unit.symbol !== quantity.unit?.symbol && sameDimension(unit.dimension, quantity.dimension))
        known.push({ subject, quantity: { ...quantity, unit } });
  };
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
    if (claim.subject.kind === 'own' && isAboutFormula(claim)) {
      // What a formula comes to has no name of its own.
      const answer = facts.value(claim.subject);
      if (answer.ok && !isItself) known.push({ subject: null, quantity: answer.quantity });
    } else if (claim.subject.kind === 'own' && !isItself) add(claim.subject);
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
  for (const division of DIVISIONS) {
    // A division is a length that stands for itself: in a formula its name would say no more.
    const answer = facts.value({ kind: 'division', division, block: null });
    if (answer.ok) known.push({ subject: null, quantity: answer.quantity });
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

/** The units that claims write a subject's value in, by its key: a bare number below may be in any of them. */
function unitsWritten(claims: readonly Claim[]): ReadonlyMap<string, readonly Unit[]> {
  const units = new Map<string, Unit[]>();
  for (const { subject, links } of claims) {
    for (const { content } of links) {
      if (content.kind !== 'stated' || content.stated.expression.kind !== 'literal') continue;
      const { unit } = content.stated.expression.quantity;
      if (unit === null) continue;
      const key = subjectKey(subject);
      const before = units.get(key) ?? [];
      if (!before.some(({ symbol }) => symbol === unit.symbol)) units.set(key, [...before, unit]);
    }
  }
  return units;
}
