import { type Dimension, isPlain, sameDimension } from '../engine/dimension.ts';
import { namesIn, rewrite, visit } from '../engine/evaluation.ts';
import type { Expression } from '../engine/expression.ts';
import * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import { roundsTo } from '../engine/rounds-to.ts';
import * as S from '../engine/scalar.ts';
import { evaluateIn } from './evaluate-in.ts';
import type { Facts } from './facts.ts';
import { type Known, knownValues } from './known-values.ts';
import type { Subject } from './measurement.ts';
import { subjectKey } from './names.ts';
import {
  isBare,
  isOwnNumber,
  isPiQuotient,
  isUsual,
  isWhole,
  type Literal,
  standsForItself,
} from './own-numbers.ts';

export interface Traced {
  readonly expression: Expression;
  /** Numbers that stand for nothing in the block. */
  readonly untraced: readonly Literal[];
  /** In how many ways the numbers can be dealt to values that are equal. */
  readonly choices: number;
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
  if (correction !== null) return { expression: correction, untraced: [], choices: 1 };
  const asCounts = (choose: Choose): Traced => replaced(facts, expression, known, mayBeCount, choose);
  const asValues = (choose: Choose): Traced => replaced(facts, expression, known, () => false, choose);
  const ways = hasUnits ? [asCounts, asValues] : [asValues, asCounts];
  const first = ways[0]!(eachItsOwn());
  if (wanted === null || isOfKind(facts, first, wanted)) return first;
  for (const choose of otherChoices(first)) {
    for (const way of ways) {
      const other = way(choose());
      if (isOfKind(facts, other, wanted)) return other;
    }
  }
  return first;
}

/** Chooses among the values that a number may stand for, number after number. */
type Choose = (candidates: readonly Known[]) => Known;

/** Of recorded quantities with one number each is taken in turn: in `5.0 × 5.0` of two sides neither is squared. */
function eachItsOwn(): Choose {
  const taken = new Set<Subject>();
  return candidates => {
    const first = candidates[0]!;
    const own = candidates.filter(({ subject }) => subject?.kind === 'own');
    const next =
      first.subject?.kind === 'own' ? (own.find(({ subject }) => !taken.has(subject!)) ?? first) : first;
    if (next.subject !== null) taken.add(next.subject);
    return next;
  };
}

/** So many ways to deal values of one number out are tried. */
const MOST_CHOICES = 32;

/** Each way to choose, after the first one has been tried; `8.0 / 8.0` is a mass by a volume, or the other way round. */
function otherChoices({ choices }: Traced): readonly (() => Choose)[] {
  const count = Math.min(MOST_CHOICES, choices);
  return Array.from({ length: Math.max(1, count) }, (_, number) => () => {
    let rest = number;
    return (candidates: readonly Known[]) => {
      const at = rest % candidates.length;
      rest = (rest - at) / candidates.length;
      return candidates[at]!;
    };
  });
}

/**
 * `5.46 mm - 0.04 mm`, or `3.5 + 21 × 0.01 - 0.03`, as what corrects the observed reading; null where the formula is not
 * that.
 */
function asCorrection(facts: Facts, expression: Expression, known: readonly Known[]): Expression | null {
  if (expression.kind === 'measured') return asCorrection(facts, expression.of, known);
  if (expression.kind !== 'add' && expression.kind !== 'subtract') return null;
  const { left, right } = expression;
  const zero = right.kind === 'negate' ? right.of : right;
  if (zero.kind !== 'literal' || S.isZero(zero.quantity.scalar)) return null;
  if (left.kind === 'literal' && isBare(left) !== isBare(zero)) return null;
  const sized = equalTo(zero, known) ?? equalTo(negated(zero), known);
  if (!isTerm(sized, /^zero (error|correction)$/) || !isObservedReading(facts, left, known)) return null;
  const observed: Subject = { kind: 'term', term: 'observed reading', row: null, block: null };
  return {
    kind: 'subtract',
    left: { kind: 'name', key: keyFor(facts, observed), text: textOf(left) },
    right: { kind: 'name', key: keyFor(facts, { ...observed, term: 'zero error' }), text: zero.text },
  };
}

/** The same for a formula with names, `LSR + CSR × LC - 0.03 mm`; null where it corrects no reading. */
export function correctionBehind(facts: Facts, expression: Expression, except: string): Expression | null {
  if (expression.kind === 'measured') return correctionBehind(facts, expression.of, except);
  if (expression.kind !== 'add' && expression.kind !== 'subtract') return null;
  const { right } = expression;
  const zero = right.kind === 'negate' ? right.of : right;
  // Hardly any formula gets as far as to be compared with all values.
  if (zero.kind !== 'literal' || !isZeroErrorsSize(facts, zero)) return null;
  return asCorrection(facts, expression, knownValues(facts, except, true));
}

/** Whether a number is the zero error of the block but for its sign. */
function isZeroErrorsSize(facts: Facts, literal: Literal): boolean {
  const error = facts.term('zero error');
  const stated = S.realValue(literal.quantity.scalar);
  if (!error.ok || stated === null || !matchesKind(literal, error.quantity)) return false;
  return R.equals(R.abs(numberAs(literal, error.quantity)), R.abs(stated));
}

/** Whether a part of a formula is the observed reading: by its name, as a number, or as the sum that makes it. */
function isObservedReading(facts: Facts, part: Expression, known: readonly Known[]): boolean {
  if (part.kind === 'literal') return isTerm(equalTo(part, known), /^observed reading$/);
  const reading = facts.term('observed reading');
  const sum = replaced(facts, part, known, () => false, eachItsOwn());
  if (!reading.ok || namesIn(sum.expression).size === 0) return false;
  const value = evaluateIn(facts, sum.expression);
  return value.ok && Q.equals(value.quantity, reading.quantity);
}

function isTerm(known: Known | null, name: RegExp): boolean {
  const subject = known?.subject;
  return subject?.kind === 'term' && subject.row === null && name.test(subject.term);
}

function textOf(part: Expression): string {
  return part.kind === 'literal' || part.kind === 'name' ? part.text : 'observed reading';
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
  choose: Choose,
): Traced {
  const untraced: Literal[] = [];
  let choices = 1;
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
      const inside = replaced(facts, part.of, known, () => false, choose);
      choices *= inside.choices;
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
    if (isPiQuotient(part)) return part;
    if (part.kind !== 'literal') return null;
    const matches = bestMatches(part, of(part));
    choices *= Math.max(1, matches.length);
    if (matches.length > 0) {
      const { subject } = choose(matches);
      return subject === null ? part : nameOf(subject, part.text);
    }
    if (isCount(part) ? !standsForItself(part) : !isOwnNumber(part) && !isUsual(part)) untraced.push(part);
    return part;
  });
  return { expression: result, untraced, choices };
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

/** The values that a number stands for: those that it is equal to, else those that it rounds. */
function bestMatches(literal: Literal, known: readonly Known[]): readonly Known[] {
  if (isOwnNumber(literal)) return [];
  const equal = allEqualTo(literal, known);
  if (equal.length > 0) return equal;
  if (equalTo(negated(literal), known) !== null) return [OPPOSITE];
  const stated = S.realValue(literal.quantity.scalar);
  const { place } = literal;
  if (place === null || stated === null) return [];
  const comparable = known.filter(value => matchesKind(literal, value.quantity));
  return once(comparable.filter(value => roundsTo(numberAs(literal, value.quantity), stated, place)));
}

function allEqualTo(literal: Literal, known: readonly Known[]): readonly Known[] {
  const stated = S.realValue(literal.quantity.scalar);
  if (stated === null) return [];
  return once(
    known.filter(
      ({ quantity }) => matchesKind(literal, quantity) && R.equals(numberAs(literal, quantity), stated),
    ),
  );
}

function equalTo(literal: Literal, known: readonly Known[]): Known | null {
  return allEqualTo(literal, known)[0] ?? null;
}

/** Each subject once, in the order given; one value of a list for all. */
function once(known: readonly Known[]): readonly Known[] {
  const seen = new Set<string>();
  return known.filter(({ subject }) => {
    const key = subject === null ? '' : subjectKey(subject);
    return !seen.has(key) && seen.add(key);
  });
}

/** A number with its unit stands for a value of its kind; a bare one for any value, in the unit it is shown in. */
export function matchesKind(literal: Literal, value: Q.Quantity): boolean {
  if (S.realValue(value.scalar) === null) return false;
  return isBare(literal) || sameDimension(literal.quantity.dimension, value.dimension);
}

/**
 * The number that a literal would show of a value: in the value's own unit where the literal has none, else in base units.
 * Nought for a value in letters.
 */
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
