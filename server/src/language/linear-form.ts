import { isPlain, sameDimension } from '../engine/dimension.ts';
import type { Expression } from '../engine/expression.ts';
import * as Q from '../engine/quantity.ts';
import * as S from '../engine/scalar.ts';
import type { Division, LinearForm } from '../engine/scales.ts';
import type { Unit } from '../engine/unit.ts';
import type { Lack } from './answer.ts';
import { evaluateIn } from './evaluate-in.ts';
import type { Facts } from './facts.ts';
import { DIVISION_OF } from './facts-scales.ts';
import { namesDivision } from './interpret-scale.ts';

/** Why a side of a scale equation is no sum of divisions and lengths. */
export type FormTrouble =
  | { readonly kind: 'not-linear' }
  | { readonly kind: 'bare-number' }
  | { readonly kind: 'lack'; readonly lack: Lack };

export type FormAnswer =
  | { readonly ok: true; readonly form: LinearForm; readonly unit: Unit | null }
  | { readonly ok: false; readonly trouble: FormTrouble };

/**
 * One side of a scale equation as so many divisions and a length: `(2k - 1) MSD`, `1 cm`, `2 MSD + 0.1 mm`.
 *
 * Letters stay letters. A product of two divisions, or a number without a unit, is no side of a scale.
 */
export function linearForm(expression: Expression, facts: Facts): FormAnswer {
  const side = partForm(expression, facts);
  if (!side.ok) return side;
  const { divisions, constant } = side.part;
  if (constant === null)
    return { ok: true, form: { divisions, constant: S.NOUGHT, dimension: null }, unit: null };
  if (isPlain(constant.dimension)) {
    if (!S.isZero(constant.scalar) || divisions.size === 0)
      return { ok: false, trouble: { kind: 'bare-number' } };
    return { ok: true, form: { divisions, constant: S.NOUGHT, dimension: null }, unit: null };
  }
  return {
    ok: true,
    form: { divisions, constant: constant.scalar, dimension: constant.dimension },
    unit: constant.unit,
  };
}

interface Part {
  readonly divisions: ReadonlyMap<Division, S.Scalar>;
  readonly constant: Q.Quantity | null;
}

type PartAnswer =
  | { readonly ok: true; readonly part: Part }
  | { readonly ok: false; readonly trouble: FormTrouble };

const NOT_LINEAR: PartAnswer = { ok: false, trouble: { kind: 'not-linear' } };

function partForm(expression: Expression, facts: Facts): PartAnswer {
  if (!namesDivision(expression)) {
    const answer = evaluateIn(facts, expression);
    if (!answer.ok) return { ok: false, trouble: { kind: 'lack', lack: answer.lack } };
    return { ok: true, part: { divisions: new Map(), constant: answer.quantity } };
  }
  switch (expression.kind) {
    case 'name': {
      const subject = facts.measurement.subjects.get(expression.key);
      if (subject?.kind !== 'division') return NOT_LINEAR;
      return {
        ok: true,
        part: { divisions: new Map([[DIVISION_OF[subject.division], S.UNITY]]), constant: null },
      };
    }
    case 'negate':
      return scaled(partForm(expression.of, facts), S.negate(S.UNITY));
    case 'add':
    case 'subtract': {
      const left = partForm(expression.left, facts);
      const right = partForm(expression.right, facts);
      if (!left.ok) return left;
      return sum(left.part, expression.kind === 'add' ? right : scaled(right, S.negate(S.UNITY)));
    }
    case 'multiply': {
      const leftNamed = namesDivision(expression.left);
      if (leftNamed && namesDivision(expression.right)) return NOT_LINEAR;
      const factor = plainFactor(leftNamed ? expression.right : expression.left, facts);
      if (factor === null) return NOT_LINEAR;
      return scaled(partForm(leftNamed ? expression.left : expression.right, facts), factor);
    }
    case 'divide': {
      if (namesDivision(expression.right)) return NOT_LINEAR;
      const divisor = plainFactor(expression.right, facts);
      const factor = divisor === null ? null : S.divide(S.UNITY, divisor);
      return factor === null ? NOT_LINEAR : scaled(partForm(expression.left, facts), factor);
    }
    default:
      return NOT_LINEAR;
  }
}

function plainFactor(expression: Expression, facts: Facts): S.Scalar | null {
  const answer = evaluateIn(facts, expression);
  return answer.ok && isPlain(answer.quantity.dimension) ? answer.quantity.scalar : null;
}

function scaled(answer: PartAnswer, factor: S.Scalar): PartAnswer {
  if (!answer.ok) return answer;
  const { divisions, constant } = answer.part;
  return {
    ok: true,
    part: {
      divisions: new Map([...divisions].map(([division, value]) => [division, S.multiply(value, factor)])),
      constant: constant && { ...constant, scalar: S.multiply(constant.scalar, factor) },
    },
  };
}

function sum(left: Part, answer: PartAnswer): PartAnswer {
  if (!answer.ok) return answer;
  const right = answer.part;
  const divisions = new Map(left.divisions);
  for (const [division, value] of right.divisions)
    divisions.set(division, S.add(divisions.get(division) ?? S.NOUGHT, value));
  if (left.constant === null || right.constant === null)
    return { ok: true, part: { divisions, constant: left.constant ?? right.constant } };
  if (!sameDimension(left.constant.dimension, right.constant.dimension)) return NOT_LINEAR;
  const constant = Q.add(left.constant, right.constant);
  return constant.ok ? { ok: true, part: { divisions, constant: constant.quantity } } : NOT_LINEAR;
}
