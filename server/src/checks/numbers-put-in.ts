import { evaluate, rewrite } from '../engine/evaluation.ts';
import type { Expression } from '../engine/expression.ts';
import * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import type { Unit } from '../engine/unit.ts';
import type { Facts } from '../language/facts.ts';
import { isKnownNumber, knownNumbers } from '../language/known-numbers.ts';
import type { Claim, Stated } from '../language/measurement.ts';
import { type Literal, standsForItself } from '../language/own-numbers.ts';
import { literalsIn } from '../language/trace.ts';
import { comparable } from './agreement.ts';

/** So many rounded numbers are varied at once; more than this is no line that a person writes. */
const MOST_ROUNDED = 8;

/**
 * Whether a link with numbers put in (`1.06 g / 0.136 cm^3`) is right: each number rounds a value of the block or note
 * correctly, and the true value lies within what those roundings allow.
 */
export function roundsWithin(
  facts: Facts,
  claim: Claim,
  stated: Stated,
  truth: Q.Quantity,
  value: Q.Quantity,
): boolean {
  const name = claim.subject.kind === 'own' ? claim.subject.name : '';
  const known = knownNumbers(facts, claim, name);
  const formulaNumbers = claim.links.flatMap(link =>
    link.content.kind === 'stated' && link.content.stated !== stated
      ? literalsIn(link.content.stated.expression)
      : [],
  );
  const rounded: Literal[] = [];
  for (const literal of literalsIn(stated.expression)) {
    if (standsForItself(literal) || formulaNumbers.some(other => Q.equals(other.quantity, literal.quantity)))
      continue;
    const match = knownAs(literal, measuringUnit(stated.expression), known);
    if (match === 'no') return false;
    if (match === 'rounded') rounded.push(literal);
  }
  if (rounded.length > MOST_ROUNDED) return false;
  // A link of mere numbers is measured by the unit that its value was given.
  const measured = !stated.hasUnit && value.unit !== null && value.unit.symbol !== '';
  const expression: Expression = measured
    ? { kind: 'measured', of: stated.expression, unit: value.unit! }
    : stated.expression;
  return rangeHolds(expression, rounded, truth);
}

/** The unit that stands behind a link and measures all of its numbers: `2 × 0.031 m/s^2`. */
function measuringUnit(expression: Expression): Unit | null {
  return expression.kind === 'measured' ? expression.unit : null;
}

/** A bare number stands for a value in the unit that it is shown in, or in the one that the whole link is measured by. */
function knownAs(
  literal: Literal,
  unit: Unit | null,
  known: readonly Q.Quantity[],
): ReturnType<typeof isKnownNumber> {
  const bare = isKnownNumber(literal, known);
  if (bare !== 'no' || unit === null) return bare;
  const quantity = Q.quantity(literal.quantity.scalar, unit);
  const place = literal.place === null ? null : R.multiply(literal.place, unit.factor);
  return isKnownNumber({ ...literal, quantity, place }, known);
}

/** The true value lies between the least and the greatest that the roundings give. */
function rangeHolds(expression: Expression, rounded: readonly Literal[], truth: Q.Quantity): boolean {
  let low: S.Scalar | null = null;
  let high: S.Scalar | null = null;
  let target: S.Scalar | null = null;
  for (let corner = 0; corner < 1 << rounded.length; corner++) {
    const moved = new Map(
      rounded.map((literal, index) => [
        literal as Expression,
        shifted(literal, ((corner >> index) & 1) === 1),
      ]),
    );
    const value = evaluate(
      rewrite(expression, part => moved.get(part) ?? null),
      () => ({ ok: false, trouble: { kind: 'domain', what: 'a name' } }),
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
