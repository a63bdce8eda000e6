import { type Dimension, isPlain, sameDimension } from '../engine/dimension.ts';
import { namesIn, rewrite, visit } from '../engine/evaluation.ts';
import type { Expression } from '../engine/expression.ts';
import * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import { roundsTo } from '../engine/rounds-to.ts';
import * as S from '../engine/scalar.ts';
import { evaluateIn, evaluateStated } from './evaluate-in.ts';
import type { Facts } from './facts.ts';
import type { Subject } from './measurement.ts';
import { subjectKey } from './names.ts';
import { isBare, isOwnNumber, isUsual, isWhole, type Literal, standsForItself } from './own-numbers.ts';
import type { ComputedTerm, ObservableTerm } from './term-names.ts';

/** A value of the block that a number in a formula may stand for. */
export interface Known {
  /** Null for one value of a list, which has no name of its own. */
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
 * A number stands for a value when it is equal to it, sign and all, or rounds it correctly; one that is equal but for its
 * sign comes from the value and stays as it is written. π as 3.14, 3.1416 and 22/7, and whole numbers to 12, stand for
 * themselves.
 *
 * Beside numbers with units a bare one is a count or a factor: `24.7 mm / 25` divides by no reading of 25 mm. Where the
 * kind of quantity that is `wanted` comes out only if it is one of the block's values, with the unit left out, it is that;
 * and where no number has a unit, each is a value with its unit left out, but for whole numbers that only fit as counts.
 *
 * The zero error added to the observed reading or taken off it, with whichever sign, is meant to correct it: such a formula
 * is what the corrected reading is, so that a sign the wrong way is found.
 */
export function tracedExpression(
  facts: Facts,
  expression: Expression,
  except: string,
  wanted: Dimension | null,
): Traced {
  const known = knownValues(facts, except, true);
  const hasUnits = speaksOfUnits(expression);
  const mayBeCount = (literal: Literal): boolean => isBare(literal) && (hasUnits || isWhole(literal));
  const correction = asCorrection(facts, expression, known);
  if (correction !== null) return { expression: correction, untraced: [] };
  const asCounts = (): Traced => replaced(facts, expression, known, mayBeCount);
  const asValues = (): Traced => replaced(facts, expression, known, () => false);
  const first = hasUnits ? asCounts() : asValues();
  if (wanted === null || isOfKind(facts, first, wanted)) return first;
  const second = hasUnits ? asValues() : asCounts();
  return isOfKind(facts, second, wanted) ? second : first;
}

/** `5.46 mm - 0.04 mm` as what corrects the observed reading; null where the formula is not that. */
function asCorrection(facts: Facts, expression: Expression, known: readonly Known[]): Expression | null {
  if (expression.kind === 'measured') return asCorrection(facts, expression.of, known);
  if (expression.kind !== 'add' && expression.kind !== 'subtract') return null;
  const { left, right } = expression;
  const zero = right.kind === 'negate' ? right.of : right;
  if (left.kind !== 'literal' || zero.kind !== 'literal' || isBare(left) !== isBare(zero)) return null;
  const reading = equalTo(left, known)?.subject;
  const sized = (equalTo(zero, known) ?? equalTo(negated(zero), known))?.subject;
  if (reading?.kind !== 'term' || reading.term !== 'observed reading' || reading.row !== null) return null;
  if (sized?.kind !== 'term' || !/^zero (error|correction)$/.test(sized.term)) return null;
  if (S.isZero(zero.quantity.scalar)) return null;
  const error: Subject = { ...sized, term: 'zero error' };
  return {
    kind: 'subtract',
    left: { kind: 'name', key: keyFor(facts, reading), text: left.text },
    right: { kind: 'name', key: keyFor(facts, error), text: zero.text },
  };
}

function isOfKind(facts: Facts, { expression }: Traced, wanted: Dimension): boolean {
  const value = evaluateIn(facts, expression);
  return value.ok && sameDimension(value.quantity.dimension, wanted);
}

/** The formula with names for numbers; whatever is a count stands for plain values only. */
function replaced(
  facts: Facts,
  expression: Expression,
  known: readonly Known[],
  isCount: (literal: Literal) => boolean,
): Traced {
  const untraced: Literal[] = [];
  const plain = known.filter(({ quantity }) => isPlain(quantity.dimension));
  const of = (literal: Literal): readonly Known[] => (isCount(literal) ? plain : known);
  const nameOf = (subject: Subject, text: string): Expression => ({
    kind: 'name',
    key: keyFor(facts, subject),
    text,
  });
  const result = rewrite(expression, part => {
    if (part.kind === 'measured') {
      // In `(2.4 + 0.06) cm` the unit is each term's, and the values bring it; in `20 × 4.2 cm` it is one number's.
      const inside = replaced(facts, part.of, known, () => false);
      untraced.push(...inside.untraced.filter(literal => !standsForItself(literal)));
      const isSum = part.of.kind === 'add' || part.of.kind === 'subtract';
      const areValues = isSum && namesIn(inside.expression).size > 0;
      return areValues && isOfKind(facts, inside, part.unit.dimension) ? inside.expression : part;
    }
    if (part.kind === 'negate' && part.of.kind === 'literal') {
      // `-(-0.04 mm)` takes off the zero error of -0.04 mm, rather than adding what is its opposite.
      const opposite = negated(part.of);
      const match = isOwnNumber(part.of) ? null : equalTo(opposite, of(part.of));
      return match?.subject ? nameOf(match.subject, opposite.text) : null;
    }
    if (part.kind !== 'literal') return null;
    const match = bestMatch(part, of(part));
    if (match !== null) return match.subject === null ? part : nameOf(match.subject, part.text);
    if (isCount(part) ? !standsForItself(part) : !isOwnNumber(part) && !isUsual(part)) untraced.push(part);
    return part;
  });
  return { expression: result, untraced };
}

function speaksOfUnits(expression: Expression): boolean {
  let found = false;
  visit(expression, part => {
    if (part.kind === 'measured' || (part.kind === 'literal' && !isPlain(part.quantity.dimension)))
      found = true;
  });
  return found;
}

function negated(literal: Literal): Literal {
  const { quantity, text } = literal;
  return { ...literal, text: `-${text}`, quantity: { ...quantity, scalar: S.negate(quantity.scalar) } };
}

function keyFor(facts: Facts, subject: Subject): string {
  const key = subjectKey(subject);
  (facts.measurement.subjects as Map<string, Subject>).set(key, subject);
  return key;
}

/** A value that has a number's size and the other sign: the number comes from it, but is not it. */
const OPPOSITE: Known = { subject: null, quantity: Q.plain(R.ZERO) };

function bestMatch(literal: Literal, known: readonly Known[]): Known | null {
  if (isOwnNumber(literal)) return null;
  const equal = equalTo(literal, known);
  if (equal !== null) return equal;
  if (equalTo(negated(literal), known) !== null) return OPPOSITE;
  const stated = S.realValue(literal.quantity.scalar);
  const { place } = literal;
  if (place === null || stated === null) return null;
  const comparable = known.filter(value => matchesKind(literal, value.quantity));
  return comparable.find(value => roundsTo(numberAs(literal, value.quantity), stated, place)) ?? null;
}

function equalTo(literal: Literal, known: readonly Known[]): Known | null {
  const stated = S.realValue(literal.quantity.scalar);
  if (stated === null) return null;
  return (
    known.find(
      ({ quantity }) => matchesKind(literal, quantity) && R.equals(numberAs(literal, quantity), stated),
    ) ?? null
  );
}

/** A number with its unit stands for a value of its kind; a bare one for any value, in the unit it is shown in. */
export function matchesKind(literal: Literal, value: Q.Quantity): boolean {
  if (S.realValue(value.scalar) === null) return false;
  return isBare(literal) || sameDimension(literal.quantity.dimension, value.dimension);
}

export function numberAs(literal: Literal, value: Q.Quantity): R.Rational {
  const number = isBare(literal) && value.unit !== null ? Q.inUnit(value, value.unit) : value.scalar;
  return S.realValue(number ?? value.scalar) ?? R.ZERO;
}

/** All number literals of a formula. */
export function literalsIn(expression: Expression): readonly Literal[] {
  const literals: Literal[] = [];
  visit(expression, part => {
    if (part.kind === 'literal') literals.push(part);
  });
  return literals;
}
