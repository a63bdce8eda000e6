import { evaluate, NO_VALUE, partsOf, rewrite, visit } from '../engine/evaluation.ts';
import type { Expression } from '../engine/expression.ts';
import * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import type { Unit } from '../engine/unit.ts';
import { evaluateIn } from '../language/evaluate-in.ts';
import type { Facts } from '../language/facts.ts';
import { isKnownNumber, knownNumbers } from '../language/known-numbers.ts';
import type { Claim, Stated } from '../language/measurement.ts';
import { isBare, isPi, isPiQuotient, type Literal, standsForItself } from '../language/own-numbers.ts';
import { literalsIn } from '../language/trace.ts';
import { comparable } from './agreement.ts';

/** So many rounded numbers are varied at once; more than this is no line that a person writes. */
const MOST_ROUNDED = 8;

/**
 * Whether a link with numbers put in (`1.06 g / 0.136 cm^3`) is right: each number rounds a value of the block or note
 * correctly, or what a part of an earlier link comes to, and the true value lies within what those roundings allow.
 */
export function roundsWithin(
  facts: Facts,
  claim: Claim,
  stated: Stated,
  truth: Q.Quantity,
  value: Q.Quantity,
): boolean {
  const rounded = roundedNumbers(facts, claim, stated);
  if (rounded === null) return false;
  // A link of mere numbers is measured by the unit that its value was given.
  const measured = !stated.hasUnit && value.unit !== null && value.unit.symbol !== '';
  const expression: Expression = measured
    ? { kind: 'measured', of: stated.expression, unit: value.unit! }
    : stated.expression;
  return rangeHolds(expression, rounded, truth);
}

/** A number of a link that was rounded, with the least and the greatest that it may stand for. */
interface Rounded {
  readonly part: Expression;
  readonly low: Expression;
  readonly high: Expression;
}

/** The rounded numbers of a link; null where one is nothing that the note knows of, or there are too many. */
function roundedNumbers(facts: Facts, claim: Claim, stated: Stated): readonly Rounded[] | null {
  const name = claim.subject.kind === 'own' ? claim.subject.name : '';
  const known = [...knownNumbers(facts, claim, name), ...partsOfEarlier(facts, claim, stated)];
  const unit = measuringUnit(stated.expression);
  // What is worked out from values may have been put into other units first; scales and readings are not.
  const factors = claim.subject.kind === 'own' || claim.subject.kind === 'statistic' ? tens() : [];
  const written = numbersBeside(claim, stated);
  const rounded: Rounded[] = [];
  for (const part of numbersOf(stated.expression)) {
    if (part.kind !== 'literal' || (isPi(part) && part.place === null)) {
      rounded.push({ part, low: { kind: 'pi' }, high: part });
      continue;
    }
    if (standsForItself(part) && !isPi(part)) continue;
    const match = isPi(part) ? 'rounded' : knownAs(part, unit, known, factors);
    if (match === 'rounded') rounded.push({ part, low: shifted(part, false), high: shifted(part, true) });
    if (rounded.length > MOST_ROUNDED) return null;
    if (match === 'no' && !written.some(other => Q.equals(other.quantity, part.quantity))) return null;
  }
  return rounded;
}

/** The number literals of a formula, and 22/7 where it is meant as π. */
function numbersOf(expression: Expression): readonly Expression[] {
  if (expression.kind === 'literal' || isPiQuotient(expression)) return [expression];
  return partsOf(expression).flatMap(numbersOf);
}

function numbersBeside(claim: Claim, stated: Stated): readonly Literal[] {
  return claim.links.flatMap(({ content }) =>
    content.kind === 'stated' && content.stated !== stated ? literalsIn(content.stated.expression) : [],
  );
}

/** So many parts of the links before are worked out. */
const MOST_PARTS = 60;

/** What each part of the formulas before a link comes to: `sin 49.25° / sin 30° = 0.7576 / 0.5000` rounds two of them. */
function partsOfEarlier(facts: Facts, { links }: Claim, stated: Stated): readonly Q.Quantity[] {
  const parts: Expression[] = [];
  for (const { content } of links) {
    if (content.kind !== 'stated') continue;
    if (content.stated === stated) break;
    if (content.stated.isValue) continue;
    visit(content.stated.expression, part => {
      if (parts.length < MOST_PARTS && part.kind !== 'literal' && part.kind !== 'name') parts.push(part);
    });
  }
  return parts.flatMap(part => {
    const value = evaluateIn(facts, part);
    return value.ok ? [value.quantity] : [];
  });
}

/** The unit that stands behind a link and measures all of its numbers: `2 × 0.031 m/s^2`. */
function measuringUnit(expression: Expression): Unit | null {
  return expression.kind === 'measured' ? expression.unit : null;
}

/**
 * A bare number stands for a value in the unit that it is shown in, in the one that the whole link is measured by, or in
 * another that is some power of ten of it, `0.800` for 80.0 cm: whether all go together, the value of the link says.
 */
function knownAs(
  literal: Literal,
  unit: Unit | null,
  known: readonly Q.Quantity[],
  factors: readonly R.Rational[],
): ReturnType<typeof isKnownNumber> {
  const bare = isKnownNumber(literal, known);
  if (bare !== 'no') return bare;
  if (unit !== null) {
    const quantity = Q.quantity(literal.quantity.scalar, unit);
    const place = literal.place === null ? null : R.multiply(literal.place, unit.factor);
    const measured = isKnownNumber({ ...literal, quantity, place }, known);
    if (measured !== 'no') return measured;
  }
  if (!isBare(literal)) return 'no';
  for (const factor of factors) {
    const scalar = S.multiply(literal.quantity.scalar, S.real(factor));
    const place = literal.place === null ? null : R.multiply(literal.place, factor);
    const match = isKnownNumber({ ...literal, quantity: Q.plain(scalar), place }, known);
    if (match !== 'no') return match;
  }
  return 'no';
}

/** 10, 1/10, 100, 1/100 and so on. */
function tens(): readonly R.Rational[] {
  return [1, 2, 3, 4, 5, 6, 7, 8, 9].flatMap(power => [
    R.powerInteger(R.TEN, power)!,
    R.powerInteger(R.TEN, -power)!,
  ]);
}

/** The true value lies between the least and the greatest that the roundings give. */
function rangeHolds(expression: Expression, rounded: readonly Rounded[], truth: Q.Quantity): boolean {
  let low: S.Scalar | null = null;
  let high: S.Scalar | null = null;
  let target: S.Scalar | null = null;
  for (let corner = 0; corner < 1 << rounded.length; corner++) {
    const moved = new Map(
      rounded.map(({ part, low: least, high: most }, index) => [
        part,
        ((corner >> index) & 1) === 1 ? most : least,
      ]),
    );
    const value = evaluate(
      rewrite(expression, part => moved.get(part) ?? null),
      () => NO_VALUE,
    );
    if (!value.ok) return false;
    const pair = comparable(truth, value.quantity);
    if (pair === null) return false;
    target = pair.truth.scalar;
    const { scalar } = pair.stated;
    if (low === null || S.compare(scalar, low) === -1) low = scalar;
    if (high === null || S.compare(scalar, high) === 1) high = scalar;
  }
  if (low === null || high === null || target === null) return false;
  const above = S.compare(low, target);
  const below = S.compare(target, high);
  return (
    (above === -1 || above === 0 || S.equals(low, target)) &&
    (below === -1 || below === 0 || S.equals(high, target))
  );
}

function shifted(literal: Literal, up: boolean): Literal {
  const half = R.multiply(literal.place ?? R.ZERO, up ? R.HALF : R.negate(R.HALF));
  return {
    ...literal,
    quantity: { ...literal.quantity, scalar: S.add(literal.quantity.scalar, S.real(half)) },
  };
}
