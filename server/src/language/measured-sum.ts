import { isPlain, sameDimension } from '../engine/dimension.ts';
import { namesIn } from '../engine/evaluation.ts';
import type { Expression } from '../engine/expression.ts';
import type * as Q from '../engine/quantity.ts';
import * as S from '../engine/scalar.ts';
import type { Unit } from '../engine/unit.ts';
import { evaluateIn } from './evaluate-in.ts';
import type { Facts } from './facts.ts';

/**
 * A sum in which names bring a unit and numbers leave it out, `MSR + 6 × 0.01` of a link before `3.26 cm`, with that unit
 * behind the numbers. Where units are typed beside bare numbers (`hasUnit`), only a nought may stand without one.
 *
 * Null where nothing in it is such a sum.
 */
export function measuredSum(
  facts: Facts,
  expression: Expression,
  unit: Unit,
  hasUnit: boolean,
): Expression | null {
  if (expression.kind === 'negate') {
    const of = measuredSum(facts, expression.of, unit, hasUnit);
    return of === null ? null : { ...expression, of };
  }
  if (expression.kind !== 'add' && expression.kind !== 'subtract') return null;
  const left = measuredSum(facts, expression.left, unit, hasUnit) ?? expression.left;
  const sum = { ...expression, left };
  const a = evaluateIn(facts, left);
  const b = evaluateIn(facts, expression.right);
  if (!a.ok || !b.ok) return null;
  const mayBeBare = (part: Expression, value: Q.Quantity): boolean =>
    holdsOnlyNumbers(facts, part) && isPlain(value.dimension) && (!hasUnit || S.isZero(value.scalar));
  const isMeasured = (value: Q.Quantity): boolean => sameDimension(value.dimension, unit.dimension);
  if (mayBeBare(left, a.quantity) && isMeasured(b.quantity))
    return { ...sum, left: { kind: 'measured', of: left, unit } };
  if (isMeasured(a.quantity) && mayBeBare(expression.right, b.quantity))
    return { ...sum, right: { kind: 'measured', of: expression.right, unit } };
  return left === expression.left ? null : sum;
}

/** Whether all names of a part are counts: `VC × 0.01`; `a/h` of two lengths is no number that lacks a unit. */
function holdsOnlyNumbers(facts: Facts, part: Expression): boolean {
  return [...namesIn(part)].every(key => {
    const subject = facts.measurement.subjects.get(key);
    const value = subject === undefined ? null : facts.value(subject);
    return value?.ok === true && isPlain(value.quantity.dimension);
  });
}
