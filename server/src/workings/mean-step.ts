import type { Step } from '../engine/derivation.ts';
import type { Expression } from '../engine/expression.ts';
import type { Facts } from '../language/facts.ts';
import type { Subject } from '../language/measurement.ts';
import { linkHolds } from './checked-link.ts';
import { overCount, resultLink, writtenValue } from './put-in.ts';
import { claimStep, equal, named } from './step-parts.ts';
import { fullNameIn, nameIn } from './subject-name.ts';
import { listedValues, sumOf } from './value-list.ts';

/** A sum of more values than that is not written out. */
export const MOST_SUMMED = 12;

/**
 * The values added, over their number: `mean of T = (2.63 + 2.56 + 2.42) s / 3 = 7.61 s / 3 ≈ 2.54 s`.
 *
 * Null where the block does not determine the mean.
 */
export function meanStep(facts: Facts, subject: Subject): Step | null {
  const list = listedValues(facts, subject);
  const right = writtenValue(facts, subject);
  if (list === null || right === null) return null;
  const { values, name } = list;
  const left = named(fullNameIn(facts, subject));
  if (values.length === 1) {
    const only = list.subjects[0];
    const first = only == null ? [] : [equal(named(nameIn(facts, only)))];
    return claimStep(left, [...first, resultLink(right)], 'there is one value, which is its own mean');
  }
  const sum = sumOf(list);
  const parts: Expression[] = [];
  if (sum !== null && values.length <= MOST_SUMMED) parts.push(sum.written);
  if (sum?.total != null) parts.push(sum.total);
  const links = parts
    .map(part => overCount(part, values.length))
    .filter(link => linkHolds(facts, subject, link, right.quantity))
    .map(link => equal(link));
  const reason = list.isAroundZero
    ? 'the readings lie on both sides of the zero of the circle, so those before it count as negative'
    : values.length > MOST_SUMMED
      ? `all ${values.length} values of ${name} are added and divided by their number`
      : null;
  return claimStep(left, [...links, resultLink(right)], reason);
}
