import type { RightValue } from '../checks/right-value.ts';
import type { Step } from '../engine/derivation.ts';
import type { Expression } from '../engine/expression.ts';
import * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import type { Facts } from '../language/facts.ts';
import { leafKey } from '../language/facts-error.ts';
import { leafError } from '../language/leaf-error.ts';
import { leafPowers } from '../language/leaf-powers.ts';
import type { Subject } from '../language/measurement.ts';
import { linkHolds } from './checked-link.ts';
import { namesOfLeaves } from './error-sources.ts';
import { centreOf, resultLink } from './put-in.ts';
import { deltaOf, PERCENT, roundedError } from './source-error.ts';
import { claimStep, equal, joined, named, sideStep, written } from './step-parts.ts';
import { fullNameIn, nameFrom, nameIn } from './subject-name.ts';

/**
 * The relative error of a product of powers whose values are open: the powers say all, `2 % + 3 × 1 % = 5 %`.
 *
 * Null where the value is a number, or the formula no product of powers.
 */
export function letterSteps(
  facts: Facts,
  subject: Extract<Subject, { readonly kind: 'statistic' }>,
  right: RightValue,
): readonly Step[] | null {
  const { of, statistic } = subject;
  if (statistic !== 'relative error' && statistic !== 'percentage error') return null;
  const value = facts.value(centreOf(facts, of));
  if (value.ok && S.realValue(value.quantity.scalar) !== null) return null;
  const powers = leafPowers(facts, of, 0);
  if (powers === null) return null;
  const names = namesOfLeaves(facts, of);
  const formula: Expression[] = [];
  const numbers: Expression[] = [];
  for (const { leaf, power } of powers.values()) {
    const error = leafError(leaf, 'relative');
    if (!error.ok) return null;
    if (S.isZero(error.quantity.scalar) || R.isZero(power)) continue;
    const name = names.get(leafKey(leaf)) ?? nameFrom(facts, leaf.facts, leaf.subject);
    formula.push(joined('divide', times(power, named(deltaOf(name))), named(name)));
    numbers.push(times(power, roundedError(Q.withUnit(error.quantity, PERCENT))));
  }
  const [first] = formula;
  const left = named(fullNameIn(facts, subject));
  if (first === undefined)
    return [claimStep(left, [resultLink(right)], 'nothing in it was recorded with an error')];
  const name = nameIn(facts, of);
  const isItself =
    powers.size === 1 && first.kind === 'divide' && first.right.kind === 'name' && first.right.text === name;
  const link = added(numbers);
  const isPlain = link.kind === 'literal' || !linkHolds(facts, subject, link, right.quantity);
  const claim = claimStep(left, [...(isPlain ? [] : [equal(link)]), resultLink(right)]);
  if (isItself) return [claim];
  const share = joined('divide', named(deltaOf(name)), named(name));
  const reason =
    formula.length === 1
      ? null
      : 'in a product or a quotient the relative errors add up, each as many times as its power says';
  return [sideStep(share, [equal(added(formula))], reason), claim];
}

function times(power: R.Rational, of: Expression): Expression {
  const size = R.abs(power);
  if (R.equals(size, R.ONE)) return of;
  return joined('multiply', written(R.toFractionText(size), Q.plain(size)), of);
}

function added(terms: readonly Expression[]): Expression {
  return terms.slice(1).reduce((sum, term) => joined('add', sum, term), terms[0]!);
}
