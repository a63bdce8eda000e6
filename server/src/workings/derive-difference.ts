import { type RightValue, rightValue } from '../checks/right-value.ts';
import type { Step } from '../engine/derivation.ts';
import type { Expression } from '../engine/expression.ts';
import { evaluateIn } from '../language/evaluate-in.ts';
import type { Facts } from '../language/facts.ts';
import type { Subject } from '../language/measurement.ts';
import { shownValue } from '../render/shown-value.ts';
import { bestLink } from './checked-link.ts';
import { centreOf, inShownUnit, putIn, putInText, resultLink, typedLiteral } from './put-in.ts';
import { HUNDRED_PERCENT, sizeOf } from './source-error.ts';
import { claimStep, equal, joined, named } from './step-parts.ts';
import { fullNameIn, nameIn } from './subject-name.ts';

/** How far a value is from an accepted one: `|g - 9.81 m/s^2| / (9.81 m/s^2) × 100 %`. */
export function differenceSteps(
  facts: Facts,
  subject: Extract<Subject, { readonly kind: 'statistic' }>,
  right: RightValue,
): readonly Step[] | null {
  const { from } = subject;
  const accepted = from === null ? null : evaluateIn(facts, from);
  if (from === null || !accepted?.ok) return null;
  const { quantity } = accepted;
  const number = typedLiteral(from, quantity) ?? putInText(shownValue(quantity), quantity);
  const centre = centreOf(facts, subject.of);
  const formula = share(named(nameIn(facts, centre)), from.kind === 'name' ? from : number);
  const link = bestLink(
    facts,
    subject,
    right,
    guard => {
      const right = rightValue(facts, centre, quantity.unit, false, guard);
      const isRecorded = facts.measurement.own.has(centre.kind === 'own' ? centre.name : '');
      const value =
        isRecorded || right === null
          ? putIn(facts, centre, guard)
          : putInText(right.text, inShownUnit(right));
      return value && share(value, number);
    },
    formula,
  );
  const links = link === null ? [equal(formula)] : [equal(formula), equal(link)];
  return [
    claimStep(
      named(fullNameIn(facts, subject)),
      [...links, resultLink(right)],
      'the difference, without its sign, as a part of the accepted value',
    ),
  ];
}

function share(value: Expression, accepted: Expression): Expression {
  const size: Expression = {
    kind: 'call',
    name: 'abs',
    arguments: [joined('subtract', value, accepted)],
  };
  return joined('multiply', joined('divide', size, sizeOf(accepted)), HUNDRED_PERCENT);
}
