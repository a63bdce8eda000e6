import { agrees, owner } from '../checks/agreement.ts';
import { wantedPlaces } from '../checks/judge-places.ts';
import { isFarFromOne, type RightValue, rightValue, writtenWith } from '../checks/right-value.ts';
import { isTenfold } from '../checks/typed-number.ts';
import type { StepLink } from '../engine/derivation.ts';
import { evaluate, NO_VALUE } from '../engine/evaluation.ts';
import type { Expression } from '../engine/expression.ts';
import * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import type { Unit } from '../engine/unit.ts';
import type { Facts } from '../language/facts.ts';
import type { Subject } from '../language/measurement.ts';
import { subjectKey } from '../language/names.ts';
import { shownValue } from '../render/shown-value.ts';
import { joined, written } from './step-parts.ts';
import { claimOf } from './subject-name.ts';

/** The value of a subject to be put into a formula, with so many guard places; null for letters and what has no value. */
export function putIn(facts: Facts, subject: Subject, guard: number): Expression | null {
  const value = facts.value(subject);
  if (!value.ok || S.realValue(value.quantity.scalar) === null) return null;
  const typed = typedValue(facts, subject, value.quantity);
  if (typed !== null) return typed;
  const right = writtenValue(facts, subject, guard);
  return right === null ? null : putInText(right.text, inShownUnit(right));
}

/**
 * The right value of a subject as its block writes it: in the unit and with the places of the block's own claim where
 * that is right, else with those that the data carry.
 */
export function writtenValue(facts: Facts, subject: Subject, guard = 0): RightValue | null {
  const home = owner(facts, subject) ?? facts;
  const sexagesimal = inMinutes(home, subject);
  const unit = unitWritten(facts, subject);
  const places = sexagesimal ? null : claimedPlaces(home, subject);
  const value = places === null ? null : home.value(atHome(subject));
  if (places === null || !value?.ok) return rightValue(facts, subject, unit, sexagesimal, guard);
  const { halves } = home.measurement;
  const tenfold = isFarFromOne(value.quantity, unit) || claimsTenfold(home, subject);
  return writtenWith(value.quantity, { least: places, most: places + guard }, { unit, halves, tenfold });
}

/** Whether the claim of a subject is written with a power of ten. */
function claimsTenfold(facts: Facts, subject: Subject): boolean {
  const last = claimOf(facts, atHome(subject))?.links.at(-1)?.content;
  return last?.kind === 'stated' && isTenfold(last.stated.text);
}

function atHome(subject: Subject): Subject {
  return subject.kind === 'unknown' || subject.kind === 'statistic' ? subject : { ...subject, block: null };
}

/** How many decimal places the claim of a result has, where it is the right one with right places. */
function claimedPlaces(facts: Facts, subject: Subject): number | null {
  const local = atHome(subject);
  if (local.kind !== 'own' && local.kind !== 'statistic') return null;
  const claim = claimOf(facts, local);
  const last = claim?.links.at(-1)?.content;
  if (last?.kind !== 'stated' || !last.stated.isValue || claim?.times !== null || claim.mended) return null;
  const { expression } = last.stated;
  const literal = expression.kind === 'negate' ? expression.of : expression;
  const value = facts.value(local);
  if (literal.kind !== 'literal' || literal.place === null || !value.ok) return null;
  const stated = evaluate(expression, () => NO_VALUE);
  const { place } = literal;
  if (!stated.ok || !agrees(facts, local, value.quantity, { quantity: stated.quantity, place })) return null;
  const { unit } = stated.quantity;
  const one = R.divide(place, unit?.factor ?? R.ONE) ?? R.ONE;
  if (R.terminatingPlaces(one) === null) return null;
  const places = -R.decimalExponent(one);
  const most = wantedPlaces(facts, local, unit, value.quantity)?.most ?? null;
  return most !== null && places > most ? null : places;
}

/** A right value as the last link of a line. */
export function resultLink(right: RightValue): StepLink {
  return {
    relation: right.isRounded ? '≈' : '=',
    value: written(right.text, inShownUnit(right)),
    error: null,
  };
}

/** A right value in the unit in which it is shown. */
export function inShownUnit({ quantity, unit }: RightValue): Q.Quantity {
  return unit === null ? quantity : Q.withUnit(quantity, unit);
}

/** A number with its unit as text, to be put in; a negative one as the opposite of its size. */
export function putInText(text: string, quantity: Q.Quantity): Expression {
  if (/^[-−]/.test(text)) return { kind: 'negate', of: written(text.slice(1), Q.negate(quantity)) };
  return written(text.replace(/^\+/, ''), quantity);
}

/** What was recorded stands as it was typed, with the noughts that it has. */
function typedValue(facts: Facts, subject: Subject, quantity: Q.Quantity): Expression | null {
  const home = owner(facts, subject);
  if (home === null || subject.kind !== 'own') return null;
  const record = home.measurement.own.get(subject.name);
  const cell =
    subject.row === null ? undefined : home.measurement.rows[subject.row - 1]?.own.get(subject.name);
  const stated = cell?.stated ?? (record?.kind === 'value' ? record.given.stated : null);
  return stated === null ? null : typedLiteral(stated.expression, quantity);
}

/** A recorded number as it is put in; null for a formula. */
export function typedLiteral(expression: Expression, quantity: Q.Quantity): Expression | null {
  if (expression.kind === 'negate') {
    const size = typedLiteral(expression.of, Q.negate(quantity));
    return size && { kind: 'negate', of: size };
  }
  if (expression.kind !== 'literal') return null;
  const { unit } = quantity;
  // A fraction, an angle, a power of ten: only the one who typed it knows how it should look.
  if (expression.place === null || /[e^′″'"×]|\d\s+\d|min|sec/.test(expression.text))
    return written(
      unit === null || expression.quantity.unit !== null ? expression.text : shownValue(quantity, { unit }),
      quantity,
    );
  const places = R.terminatingPlaces(R.divide(expression.place, unit?.factor ?? R.ONE) ?? R.ONE) ?? 0;
  return putInText(shownValue(quantity, { unit, atLeast: places }), quantity);
}

/** The unit in which a block writes a subject: that of its claim, else of the choices of a question about it. */
export function unitWritten(facts: Facts, subject: Subject): Unit | null {
  const home = owner(facts, subject) ?? facts;
  for (const link of [...(claimOf(home, atHome(subject))?.links ?? [])].reverse()) {
    const unit = link.content.kind === 'stated' ? literalUnit(link.content.stated.expression) : null;
    if (unit !== null) return unit;
  }
  const { find, options } = facts.measurement.question;
  const isAsked = find !== null && subjectKey(find.subject) === subjectKey(subject);
  for (const { stated } of isAsked ? options : []) {
    const unit = stated === null ? null : literalUnit(stated.expression);
    if (unit !== null) return unit;
  }
  // An error is written in the unit of what it is the error of; a relative one fits no unit of it anyway.
  return subject.kind === 'statistic' ? unitWritten(facts, subject.of) : null;
}

function literalUnit(expression: Expression): Unit | null {
  if (expression.kind === 'negate') return literalUnit(expression.of);
  return expression.kind === 'literal' ? expression.quantity.unit : null;
}

/** Whether a block writes an angle in degrees and minutes: where its scales or records do and no claim has decimals. */
export function inMinutes(facts: Facts, subject: Subject): boolean {
  const stated = claimOf(facts, subject)?.links.at(-1)?.content;
  if (stated?.kind === 'stated' && stated.stated.isValue)
    return (
      MINUTES.test(stated.stated.text) ||
      (facts.scales().dimension?.angle === 1 && !/\.\d/.test(stated.stated.text))
    );
  if (facts.scales().dimension?.angle === 1) return true;
  return [...facts.measurement.own.values()].some(
    record =>
      record.kind === 'value' &&
      (MINUTES.test(record.given.stated.text) || aliasInMinutes(facts, record.given.stated.expression)),
  );
}

/** `theta: observed reading of church-clock`, whose scales are divided in degrees. */
function aliasInMinutes(facts: Facts, expression: Expression): boolean {
  const subject = expression.kind === 'name' ? facts.measurement.subjects.get(expression.key) : undefined;
  const home = subject === undefined ? null : owner(facts, subject);
  return home !== null && home !== facts && home.scales().dimension?.angle === 1;
}

const MINUTES = /[′″'"]|\barcmin\b/;

/** A formula over a plain whole number: the sum over how many there are. */
export function overCount(top: Expression, count: number): Expression {
  return joined('divide', top, written(String(count), Q.plain(R.rational(count))));
}

/** What an error belongs to: of a list or a column its mean. */
export function centreOf(facts: Facts, subject: Subject): Subject {
  if (subject.kind !== 'own' || subject.row !== null) return subject;
  const { own, columns } = (owner(facts, subject) ?? facts).measurement;
  const isList =
    own.get(subject.name)?.kind === 'list' || (columns.has(subject.name) && !own.has(subject.name));
  return isList ? { kind: 'statistic', statistic: 'mean', of: subject, from: null } : subject;
}
