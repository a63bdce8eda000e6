import { isPlain, sameDimension } from '../engine/dimension.ts';
import { namesIn } from '../engine/evaluation.ts';
import type { Expression } from '../engine/expression.ts';
import * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
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
  const sum = measured(facts, expression, unit, hasUnit);
  return sum === null || sum.expression === expression ? null : sum.expression;
}

/** A part of the sum with its value, which is worked out once; null where it has none. */
interface Part {
  readonly expression: Expression;
  readonly value: Q.Quantity;
}

function measured(facts: Facts, expression: Expression, unit: Unit, hasUnit: boolean): Part | null {
  if (expression.kind === 'negate') {
    const of = measured(facts, expression.of, unit, hasUnit);
    if (of === null) return null;
    const isSame = of.expression === expression.of;
    return {
      expression: isSame ? expression : { ...expression, of: of.expression },
      value: Q.negate(of.value),
    };
  }
  if (expression.kind !== 'add' && expression.kind !== 'subtract') return worth(facts, expression);
  const left = measured(facts, expression.left, unit, hasUnit);
  const right = left === null ? null : worth(facts, expression.right);
  if (left === null || right === null) return null;
  const mayBeBare = ({ expression: part, value }: Part): boolean =>
    isPlain(value.dimension) && (!hasUnit || S.isZero(value.scalar)) && holdsOnlyNumbers(facts, part);
  const isMeasured = ({ value }: Part): boolean => sameDimension(value.dimension, unit.dimension);
  const [a, b] =
    isMeasured(right) && mayBeBare(left)
      ? [inUnit(left, unit), right]
      : isMeasured(left) && mayBeBare(right)
        ? [left, inUnit(right, unit)]
        : [left, right];
  const value = expression.kind === 'add' ? Q.add(a.value, b.value) : Q.subtract(a.value, b.value);
  if (!value.ok) return null;
  const isSame = a.expression === expression.left && b.expression === expression.right;
  const sum = isSame ? expression : { ...expression, left: a.expression, right: b.expression };
  return { expression: sum, value: value.quantity };
}

function worth(facts: Facts, expression: Expression): Part | null {
  const value = evaluateIn(facts, expression);
  return value.ok ? { expression, value: value.quantity } : null;
}

function inUnit({ expression, value }: Part, unit: Unit): Part {
  const product = Q.multiply(value, Q.quantity(R.ONE, unit));
  return {
    expression: { kind: 'measured', of: expression, unit },
    value: product.ok ? product.quantity : value,
  };
}

/** Whether all names of a part are counts: `VC × 0.01`; `a/h` of two lengths is no number that lacks a unit. */
function holdsOnlyNumbers(facts: Facts, part: Expression): boolean {
  return [...namesIn(part)].every(key => {
    const subject = facts.measurement.subjects.get(key);
    const value = subject === undefined ? null : facts.value(subject);
    return value?.ok === true && isPlain(value.quantity.dimension);
  });
}
