import { toDecimalText } from '../engine/decimal-text.ts';
import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import { evaluateIn } from '../language/evaluate-in.ts';
import type { Facts } from '../language/facts.ts';
import { ratio } from '../language/facts-divisions.ts';
import { DIVISION_OF } from '../language/facts-scales.ts';
import { linearForm } from '../language/linear-form.ts';
import type { Verdict } from './verdict.ts';

/**
 * How many divisions a wrong claim about the scales should have named, as it is written in its place, and in words:
 * `9.5 MSD`, `10 VSD are 9.5 MSD by the scales, not 8 MSD`.
 *
 * Null for a claim about something else, and for a link that is no count of one kind of division.
 */
export function divisionsInstead(
  facts: Facts,
  { claim, link }: Verdict,
): { readonly right: string; readonly said: string } | null {
  if (claim.subject.kind !== 'division' || link?.content.kind !== 'stated') return null;
  const { stated } = link.content;
  const word = /^[\d./() ]+([A-Za-z][A-Za-z .]*)$/.exec(stated.text)?.[1];
  const side = linearForm(stated.expression, facts);
  if (word === undefined || !side.ok || side.form.divisions.size !== 1) return null;
  const [other] = side.form.divisions.keys();
  const times = claim.times === null ? null : evaluateIn(facts, claim.times);
  const count = times === null ? R.ONE : times.ok ? S.realValue(times.quantity.scalar) : null;
  const each = other === undefined ? null : ratio(facts, DIVISION_OF[claim.subject.division], other);
  const one = each === null ? null : S.realValue(each);
  if (count === null || one === null) return null;
  const right = R.multiply(count, one);
  const places = R.terminatingPlaces(right);
  const shown = places !== null && places <= 4 ? toDecimalText(right, places) : R.toFractionText(right);
  const verb = R.equals(count, R.ONE) ? 'is' : 'are';
  return {
    right: `${shown} ${word}`,
    said: `${claim.subjectText} ${verb} ${shown} ${word} by the scales, not ${stated.text}`,
  };
}
