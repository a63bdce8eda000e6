import { powersOf } from '../engine/derivative.ts';
import * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import { type Answer, computed } from './answer.ts';
import type { Facts } from './facts.ts';
import { formulaOf, leafKey, ownerOf } from './facts-error.ts';
import { type Leaf, leafError } from './leaf-error.ts';
import type { Subject } from './measurement.ts';

/**
 * The relative error of a product of powers: the relative error of each measured value times the size of its power, added
 * up. 2 % of a length gives 6 % of its cube.
 *
 * Without a unit. Null where the formula is no such product; where a measured value has no error, that is what is lacking.
 */
export function relativeByPowers(facts: Facts, of: Subject): Answer | null {
  const powers = leafPowers(facts, of, 0);
  if (powers === null) return null;
  let sum = Q.plain(R.ZERO);
  for (const { leaf, power } of powers.values()) {
    const error = leafError(leaf, 'relative');
    if (!error.ok) return error;
    const total = Q.add(sum, {
      ...error.quantity,
      scalar: S.multiply(error.quantity.scalar, S.real(R.abs(power))),
    });
    if (!total.ok) return null;
    sum = total.quantity;
  }
  return computed({ ...sum, unit: null });
}

export interface LeafPower {
  readonly leaf: Leaf;
  readonly power: R.Rational;
}

/** The power of each measured thing in a product of powers; null where the formula is none. */
export function leafPowers(facts: Facts, of: Subject, depth: number): ReadonlyMap<string, LeafPower> | null {
  if (depth > 20) return null;
  const owner = ownerOf(facts, of);
  if (owner === null) return null;
  const formula = formulaOf(owner.facts, owner.subject);
  if (formula === null) {
    const leaf: Leaf = { facts: owner.facts, subject: owner.subject };
    return new Map([[leafKey(leaf), { leaf, power: R.ONE }]]);
  }
  const powers = powersOf(formula);
  if (powers === null) return null;
  const result = new Map<string, LeafPower>();
  for (const [key, power] of powers) {
    const subject = owner.facts.measurement.subjects.get(key);
    const inner = subject === undefined ? null : leafPowers(owner.facts, subject, depth + 1);
    if (inner === null) return null;
    for (const [name, { leaf, power: by }] of inner) {
      const before = result.get(name)?.power ?? R.ZERO;
      result.set(name, { leaf, power: R.add(before, R.multiply(power, by)) });
    }
  }
  return result;
}
