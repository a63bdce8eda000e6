import { isPlain } from '../engine/dimension.ts';
import * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import { roundsTo } from '../engine/rounds-to.ts';
import type { Unit } from '../engine/unit.ts';
import { evaluateIn, evaluateStated } from '../language/evaluate-in.ts';
import type { Facts } from '../language/facts.ts';
import { measuredSum } from '../language/measured-sum.ts';
import type { Claim, Link, Stated } from '../language/measurement.ts';
import { standsForItself } from '../language/own-numbers.ts';
import { literalsIn } from '../language/trace.ts';
import { agrees, comparable, type StatedValue } from './agreement.ts';
import type { Judging } from './judge.ts';
import { inUnit, placeOf } from './link-value.ts';
import { roundsWithin } from './numbers-put-in.ts';

/** A link with what it may say: numbers without a unit may be measured by that of a link behind them. */
interface Side {
  readonly link: Link;
  readonly stated: Stated;
  readonly values: readonly StatedValue[];
}

/**
 * Judges what is claimed of numbers alone, `(2.4 + 2.5 + 2.6)/3 = 7.5/3 = 2.5`: every link is what the first one comes
 * to, or what the one before it does, rounded as it is stated.
 */
export function judgeNumbers(judging: Judging, block: number, claim: Claim): void {
  const facts = judging.facts.block(block);
  const [first, ...others] = sidesOf(facts, claim);
  if (first === undefined) return;
  const ends = others[others.length - 1]?.values ?? [];
  const agree = (truth: StatedValue, value: StatedValue): boolean =>
    agrees(facts, claim.subject, truth.quantity, value);
  const truth = first.values.find(sum => ends.some(end => agree(sum, end))) ?? first.values[0];
  const { quantity } = truth ?? { quantity: null };
  let before = truth;
  for (const { link, stated, values } of quantity === null ? [first] : others) {
    const at = { block, claim, link, span: link.span };
    if (quantity === null || values.length === 0) {
      const answer = evaluateStated(facts, stated);
      if (!answer.ok) judging.verdicts.push({ ...at, kind: 'lack', lack: answer.lack });
      continue;
    }
    const value = values.find(other => comparable(quantity, other.quantity) !== null);
    if (value === undefined) {
      const other = values[0]!;
      judging.verdicts.push(
        isBare(other, stated)
          ? { ...at, kind: 'bare', truth: quantity, text: stated.text }
          : { ...at, kind: 'other-kind', stated: other.quantity, truth: quantity },
      );
      continue;
    }
    const isRight =
      values.some(other => agree(truth!, other) || agree(before!, other)) ||
      isRoundedInFigures(first.stated, stated, quantity, value) ||
      (!stated.isValue && roundsWithin(facts, claim, stated, quantity, value.quantity));
    const wrong = { kind: 'wrong', stated: value, truth: quantity, part: 'value', slip: null } as const;
    if (!isRight) judging.verdicts.push({ ...at, ...wrong });
    before = value;
  }
}

function sidesOf(facts: Facts, { links }: Claim): readonly Side[] {
  return links.flatMap((link, index) => {
    if (link.content.kind !== 'stated') return [];
    const { stated } = link.content;
    return [{ link, stated, values: valuesOf(facts, stated, firstUnit(facts, links.slice(index + 1))) }];
  });
}

function isBare({ quantity }: StatedValue, { hasUnit }: Stated): boolean {
  return isPlain(quantity.dimension) && !hasUnit;
}

/** The unit of the first link that has one. */
function firstUnit(facts: Facts, links: readonly Link[]): Unit | null {
  for (const { content } of links) {
    if (content.kind !== 'stated' || !content.stated.hasUnit) continue;
    const value = evaluateStated(facts, content.stated);
    if (value.ok) return value.quantity.unit;
  }
  return null;
}

/** What a link says; with a unit behind it that is more than per cent, the value that it measures comes first. */
function valuesOf(facts: Facts, stated: Stated, unit: Unit | null): readonly StatedValue[] {
  const answer = evaluateStated(facts, stated);
  if (!answer.ok) {
    const sum = unit === null ? null : measuredSum(facts, stated.expression, unit, stated.hasUnit);
    const value = sum === null ? null : evaluateIn(facts, sum);
    return value?.ok ? [{ quantity: value.quantity, place: null }] : [];
  }
  const value = { quantity: answer.quantity, place: placeOf(stated.expression) };
  if (unit === null || !isBare(value, stated)) return [value];
  const measured = inUnit(value, unit);
  return isPlain(unit.dimension) ? [value, measured] : [measured, value];
}

/** A twentieth: no rounding to the figures of the numbers changes more. */
const NEAR = R.rational(1, 20);

/**
 * Whether a product is rounded to as many figures as its numbers have, with noughts that fill the places up,
 * `3.14 × 20^2 = 1260`, or a value is said as a power of ten, `1 atm = 10^5 Pa`.
 */
function isRoundedInFigures(first: Stated, stated: Stated, truth: Q.Quantity, value: StatedValue): boolean {
  const { unit } = value.quantity;
  const pair = comparable(truth, value.quantity);
  const [right, written] = [pair?.truth, pair?.stated].map(each =>
    each === undefined ? null : Q.numberIn(each, unit),
  );
  if (right == null || written == null || first.expression.kind === 'add') return false;
  if (first.expression.kind === 'subtract' || !stated.isValue) return false;
  const off = R.abs(R.subtract(right, written));
  if (R.compare(off, R.multiply(R.abs(right), NEAR)) > 0) return false;
  if (/^10\s*[\^⁰¹²³⁴⁵⁶⁷⁸⁹⁻]/.test(stated.text)) return true;
  const [, digits = '', noughts = ''] = /^(\d+?)(0+)(?![\d.])/.exec(stated.text) ?? [];
  const figures = literalsIn(first.expression).flatMap(literal =>
    standsForItself(literal) ? [] : [figuresOf(literal.text)],
  );
  const place = R.powerInteger(R.TEN, noughts.length)!;
  return noughts !== '' && digits.length >= Math.min(...figures) && roundsTo(right, written, place);
}

/** How many figures a number is written with; the noughts before them are none. */
function figuresOf(text: string): number {
  return (/^[\d.]+/.exec(text)?.[0] ?? '').replace('.', '').replace(/^0+/, '').length;
}
