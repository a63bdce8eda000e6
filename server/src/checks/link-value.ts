import { dimension, isPlain, sameDimension } from '../engine/dimension.ts';
import { holdsPi, namesIn } from '../engine/evaluation.ts';
import type { Expression } from '../engine/expression.ts';
import * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import type { Unit } from '../engine/unit.ts';
import type { Answer } from '../language/answer.ts';
import { chosenReading, evaluateIn, evaluateStated } from '../language/evaluate-in.ts';
import type { Facts } from '../language/facts.ts';
import { measuredSum } from '../language/measured-sum.ts';
import type { Claim, Link, Stated } from '../language/measurement.ts';
import { literalsIn } from '../language/trace.ts';
import { agrees, comparable, isReading, type StatedValue } from './agreement.ts';
import type { Judging } from './judge.ts';
import { roundsWithin } from './numbers-put-in.ts';
import { smallestPart } from './smallest-part.ts';
import { lacksAngleUnit, withLikelyUnit } from './without-unit.ts';

/** What a link says, as a value; null when it says nothing that can be compared, which is then a verdict. */
export function linkValue(
  judging: Judging,
  block: number,
  claim: Claim,
  link: Link,
  stated: Stated,
  truth: Q.Quantity,
  isLast: boolean,
): StatedValue | null {
  const facts = judging.facts.block(block);
  const at = { block, claim, link, span: link.span };
  const answer: Answer = evaluateStated(facts, stated, truth.dimension);
  if (!answer.ok) {
    const sum = answer.lack.kind === 'trouble' ? sumMeasuredByNext(facts, claim, link, stated, truth) : null;
    if (sum !== null) return sum;
    const inUnits = answer.lack.kind === 'two-readings' ? valueInUnits(facts, claim, stated, truth) : null;
    if (inUnits !== null) return inUnits;
    judging.verdicts.push({ ...at, kind: 'lack', lack: answer.lack });
    return null;
  }
  const place = placeOf(chosenReading(facts, stated, truth.dimension));
  const value = { quantity: answer.quantity, place };
  const isNumber = isPlain(answer.quantity.dimension) && namesIn(stated.expression).size === 0;
  const isBare = isNumber && !stated.hasUnit;
  const lacksUnit =
    lacksAngleUnit(stated, answer.quantity, truth) &&
    // π says radians by itself: `pi/6`.
    !(holdsPi(stated.expression) && agrees(facts, claim.subject, truth, value));
  if (comparable(truth, answer.quantity) !== null && !lacksUnit)
    return isBare && isInPerCent(facts, claim, link, stated, S.divide(value.quantity.scalar, truth.scalar))
      ? measuredByNext(facts, claim, link, value, truth)
      : value;
  if (isBare && isLast) {
    judging.verdicts.push({
      ...at,
      kind: 'bare',
      truth: withLikelyUnit(truth, answer.quantity),
      text: stated.text,
    });
    return null;
  }
  // A share may stand among the numbers: `8.5 % × 160 = 13.6 cm^3`.
  if (isNumber && !isLast) return measuredByNext(facts, claim, link, value, truth);
  const steps = differenceInKelvin(claim, answer.quantity, truth);
  if (steps !== null) return { quantity: steps, place };
  judging.verdicts.push({ ...at, kind: 'other-kind', stated: answer.quantity, truth });
  return null;
}

/** `t2 - t1 = 12.5 K`: a difference of two temperatures is as many kelvins as degrees Celsius. */
function differenceInKelvin({ links }: Claim, stated: Q.Quantity, truth: Q.Quantity): Q.Quantity | null {
  const first = links[0]?.content;
  const isDifference = first?.kind === 'stated' && first.stated.expression.kind === 'subtract';
  return isDifference && sameDimension(truth.dimension, CELSIUS) && sameDimension(stated.dimension, KELVIN)
    ? { ...stated, dimension: CELSIUS }
    : null;
}

const CELSIUS = dimension({ celsius: 1 });
const KELVIN = dimension({ temperature: 1 });

/**
 * `6.0 V / 12 Ω` beside a voltage V: where both readings are of the right kind, the words behind numbers are units if
 * that gives the right value.
 */
function valueInUnits(facts: Facts, claim: Claim, stated: Stated, truth: Q.Quantity): StatedValue | null {
  const answer = evaluateIn(facts, stated.expression);
  if (!answer.ok) return null;
  const value = { quantity: answer.quantity, place: placeOf(stated.expression) };
  const isRight =
    agrees(facts, claim.subject, truth, value) ||
    (!isReading(claim.subject) && roundsWithin(facts, claim, stated, truth, value.quantity));
  return isRight ? value : null;
}

/** `LC = 0.1 - 0.09 = 0.01 cm`: links of mere numbers are measured by the unit of the next one that has it. */
function measuredByNext(
  facts: Facts,
  claim: Claim,
  from: Link,
  value: StatedValue,
  truth: Q.Quantity,
): StatedValue | null {
  for (const link of claim.links.slice(claim.links.indexOf(from) + 1)) {
    if (link.content.kind !== 'stated' || !link.content.stated.hasUnit) continue;
    const measured = evaluateStated(facts, link.content.stated);
    const unit = measured.ok ? measured.quantity.unit : null;
    if (unit === null || !measured.ok) continue;
    const whole = inUnit(value, unit);
    if (comparable(truth, whole.quantity) === null) return null;
    if (agrees(facts, claim.subject, truth, whole)) return whole;
    // Before an angle in parts, `3 × 1 = 0° 3′`, the numbers may be of its last part.
    const next = { quantity: measured.quantity, place: placeOf(link.content.stated.expression) };
    const part = inUnit(value, smallestPart(next) ?? unit);
    return agrees(facts, claim.subject, truth, part) ? part : whole;
  }
  return null;
}

/** A bare value with a unit behind it. */
export function inUnit({ quantity, place }: StatedValue, unit: Unit): StatedValue {
  return {
    quantity: Q.quantity(quantity.scalar, unit),
    place: place === null ? null : S.realValue(Q.quantity(place, unit).scalar),
  };
}

/**
 * `1 + 2.5 + 5 = 8.5 %`: numbers that the next link's per cent measures, some hundred times as large as the right share;
 * with a hundred among them that is not so.
 */
function isInPerCent(
  facts: Facts,
  { links }: Claim,
  link: Link,
  stated: Stated,
  times: S.Scalar | null,
): boolean {
  const size = times === null ? null : S.realValue(times);
  if (size === null || R.compare(R.abs(size), R.TEN) < 0) return false;
  const next = links[links.indexOf(link) + 1];
  if (stated.isValue || next?.content.kind !== 'stated' || !next.content.stated.hasUnit) return false;
  const value = evaluateStated(facts, next.content.stated);
  return (
    value.ok &&
    value.quantity.unit?.symbol === '%' &&
    !literalsIn(stated.expression).some(({ text }) => /^100(?:\.0*)?$/.test(text))
  );
}

/** `MSR + 6 × 0.01 = 3.26 cm`: numbers beside names in a sum are measured by the next link's unit as well. */
function sumMeasuredByNext(
  facts: Facts,
  claim: Claim,
  from: Link,
  stated: Stated,
  truth: Q.Quantity,
): StatedValue | null {
  for (const { content } of claim.links.slice(claim.links.indexOf(from) + 1)) {
    if (content.kind !== 'stated' || content.stated.expression.kind !== 'literal') continue;
    const { unit } = content.stated.expression.quantity;
    const sum = unit === null ? null : measuredSum(facts, stated.expression, unit, stated.hasUnit);
    const value = sum === null ? null : evaluateIn(facts, sum);
    if (value?.ok && comparable(truth, value.quantity) !== null)
      return { quantity: value.quantity, place: null };
  }
  return null;
}

/** One in the last place of a value; null for a formula. */
export function placeOf(expression: Expression): StatedValue['place'] {
  if (expression.kind === 'negate') return placeOf(expression.of);
  return expression.kind === 'literal' ? expression.place : null;
}
