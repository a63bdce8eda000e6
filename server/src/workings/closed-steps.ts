import type { Step } from '../engine/derivation.ts';
import type { Expression } from '../engine/expression.ts';
import * as Q from '../engine/quantity.ts';
import * as S from '../engine/scalar.ts';
import { evaluateIn } from '../language/evaluate-in.ts';
import { fineCount } from '../language/facts-divisions.ts';
import { closedValue } from '../language/facts-zero.ts';
import type { Closed, ClosedPosition, Subject } from '../language/measurement.ts';
import { expressionText } from '../render/expression-text.ts';
import { byTheScales } from './by-the-scales.ts';
import { divisionOf, type Setting, termValue } from './setting.ts';
import { joined } from './step-parts.ts';
import { vernierDivisions, vernierRule } from './vernier-rule.ts';
import { mannerOf } from './worked-claim.ts';
import { exactValue, type Manner, plainNumber } from './written-value.ts';

/** How one check of the closed instrument gives a zero error: lines before, the links of the claim, why. */
export interface ClosedSteps {
  readonly steps: readonly Step[];
  readonly links: readonly Expression[];
  /** Why the sign, which several checks of one side share. */
  readonly sign: string | null;
  /** Why so many divisions. */
  readonly count: string | null;
}

/** `-(50 - 47) × 0.02 mm`, with the side on which the zero stands for the reason of its sign. */
export function closedSteps(setting: Setting, closed: Closed, subject: Subject): ClosedSteps {
  const { position } = closed;
  const value = closedValue(setting.facts, closed);
  const manner = mannerOf(setting, subject);
  if (!value.ok) return { steps: [], links: [], sign: null, count: null };
  switch (position.kind) {
    case 'zeros-coincide':
      return {
        steps: [],
        links: [],
        count: null,
        sign: 'Closed, the zeros coincide, so there is no zero error',
      };
    case 'offset':
      return offsetSteps(setting, position, value.quantity, manner);
    case 'division':
      return divisionSteps(setting, position, value.quantity, manner);
  }
}

function offsetSteps(
  setting: Setting,
  position: Extract<ClosedPosition, { readonly kind: 'offset' }>,
  value: Q.Quantity,
  manner: Manner,
): ClosedSteps {
  const { facts } = setting;
  const isBelow = position.side === 'negative';
  if (position.angle !== null) {
    const reason = isBelow
      ? 'Off the arc the closed instrument reads less than zero, so the zero error is negative'
      : 'On the arc the closed instrument reads too much, so the zero error is positive';
    return { steps: [], links: [], sign: reason, count: null };
  }
  const count = position.divisions === null ? null : evaluateIn(facts, position.divisions.expression);
  const { hasCircular } = facts.scales();
  const one =
    (hasCircular ? divisionOf(facts, 'circular scale division') : null) ?? termValue(facts, 'least count');
  if (!count?.ok || one === null || S.isZero(value.scalar))
    return { steps: [], links: [], sign: null, count: null };
  const number = plainNumber(count.quantity.scalar);
  const size = joined('multiply', minus(number, isBelow), exactValue(one, manner));
  const where = hasCircular
    ? isBelow
      ? 'above the line'
      : 'below the line'
    : isBelow
      ? 'off the arc'
      : 'on the arc';
  return {
    steps: [],
    links: [size],
    count: null,
    sign: `Closed, the zero stands ${where}, so the instrument ${signWords(isBelow)}`,
  };
}

/** Why a zero error has its sign. */
function signWords(isBelow: boolean): string {
  return isBelow
    ? 'reads less than zero and the zero error is negative'
    : 'reads more than zero and the zero error is positive';
}

function minus(value: Expression, isBelow: boolean): Expression {
  return isBelow ? { kind: 'negate', of: value } : value;
}

type Division = Extract<ClosedPosition, { readonly kind: 'division' }>;

function divisionSteps(setting: Setting, position: Division, value: Q.Quantity, manner: Manner): ClosedSteps {
  const { facts } = setting;
  const isBelow = S.sign(value.scalar) === -1;
  const sign = `${sideWords(position)}, so the closed instrument ${signWords(isBelow)}`;
  if (S.isZero(value.scalar))
    return {
      steps: [],
      links: [],
      count: null,
      sign: 'Closed, the division in line is the zero, so there is no zero error',
    };
  if (position.vernierDivision !== null) return threeScales(setting, position, value, manner, sign);
  const count = position.division === null ? null : evaluateIn(facts, position.division.expression);
  if (!count?.ok || position.nextDivision !== null) return { steps: [], links: [], sign, count: null };
  const onVernier = !facts.scales().hasCircular && position.scale === 'vernier';
  const around = divisionsAround(setting);
  const one =
    onVernier || divisionOf(facts, 'circular scale division') === null
      ? termValue(facts, 'least count')
      : divisionOf(facts, 'circular scale division');
  const k = count.quantity.scalar;
  const rule = onVernier ? vernierRule(facts) : 'up';
  if (one !== null && rule !== 'odd') {
    const counted = (scalar: S.Scalar): boolean =>
      S.equals(S.multiply(minusScalar(scalar, isBelow), one.scalar), value.scalar);
    const put = (number: Expression): Expression =>
      joined('multiply', minus(number, isBelow), exactValue(one, manner));
    if (counted(k))
      return { steps: [], links: [put(plainNumber(k))], sign, count: whyAsRead(position, isBelow, rule, k) };
    if (around !== null && counted(S.subtract(around, k))) {
      const rest = joined('subtract', plainNumber(around), plainNumber(k));
      return { steps: [], links: [put(rest)], sign, count: whyFromEnd(position, isBelow, rule, k, around) };
    }
  }
  return onVernier
    ? byScales(setting, position, k, value, manner, sign)
    : { steps: [], links: [], sign, count: null };
}

function minusScalar(scalar: S.Scalar, isBelow: boolean): S.Scalar {
  return isBelow ? S.negate(scalar) : scalar;
}

/** How many divisions bring the fine scale round: the vernier's lines, or once around the drum. */
function divisionsAround({ facts }: Setting): S.Scalar | null {
  const [turn, one] = [divisionOf(facts, 'rotation'), divisionOf(facts, 'circular scale division')];
  if (facts.scales().hasCircular && turn !== null && one !== null) return S.divide(turn.scalar, one.scalar);
  const count = fineCount(facts);
  return count.ok ? count.quantity.scalar : null;
}

/** On which side the zero stands. */
function sideWords({ scale, side }: Division): string {
  switch (scale) {
    case 'vernier':
      return `The vernier zero stands ${side === 'negative' ? 'left' : 'right'} of the main zero`;
    case 'circular':
      return `The circular zero stands ${side === 'negative' ? 'above' : 'below'} the line`;
    case 'linear':
      return side === 'nearest'
        ? 'The zero of the linear scale is barely visible'
        : `The zero of the linear scale is ${side === 'negative' ? 'hidden' : 'visible'}`;
  }
}

/** Why the division counts as it is read, where a reader may expect N - k. */
function whyAsRead(position: Division, isBelow: boolean, rule: 'up' | 'down', k: S.Scalar): string | null {
  const number = S.scalarText(k);
  if (position.fromFarEnd && isBelow)
    return `counted from the far end, the ${number} divisions are what is missing`;
  if (rule === 'down' && isBelow)
    return `on this vernier line ${number} has fallen ${number} least counts behind`;
  return null;
}

/** Why N - k divisions count. */
function whyFromEnd(
  position: Division,
  isBelow: boolean,
  rule: 'up' | 'down',
  k: S.Scalar,
  around: S.Scalar,
): string | null {
  const [number, all] = [S.scalarText(k), S.scalarText(around)];
  if (position.fromFarEnd) return `division ${number} from the far end is line ${all} - ${number}`;
  if (rule === 'down') return `on this vernier line ${number} stands for ${all} - ${number} least counts`;
  return isBelow ? `division ${number} counts from the wrong end, so it is ${all} - ${number}` : null;
}

/** The closed position of an odd vernier, from the scales themselves. */
function byScales(
  setting: Setting,
  position: Division,
  k: S.Scalar,
  value: Q.Quantity,
  manner: Manner,
  sign: string,
): ClosedSteps {
  const vernier = vernierDivisions(setting.facts);
  const lines = vernier?.lines ?? null;
  const line = !position.fromFarEnd ? k : lines === null ? null : S.subtract(lines, k);
  if (vernier === null || line === null) return { steps: [], links: [], sign, count: null };
  const isBelow = position.side === 'negative';
  const zero = { ...vernier.coarse, scalar: S.NOUGHT };
  const from = isBelow ? Q.negate(vernier.coarse) : zero;
  const way = byTheScales(setting, { vernier, line, at: value, from, unknown: 'x' }, manner);
  if (way === null) return { steps: [], links: [], sign, count: null };
  return { steps: way.steps, links: [way.link], sign, count: null };
}

/** Drum and vernier together; short of zero the drum shows one rotation too much. */
function threeScales(
  setting: Setting,
  position: Division,
  value: Q.Quantity,
  manner: Manner,
  sign: string,
): ClosedSteps {
  const { facts } = setting;
  const drum = position.division === null ? null : evaluateIn(facts, position.division.expression);
  const line = evaluateIn(facts, position.vernierDivision!.expression);
  const [one, least, pitch] = [
    divisionOf(facts, 'circular scale division'),
    termValue(facts, 'least count'),
    divisionOf(facts, 'rotation'),
  ];
  if (!drum?.ok || !line.ok || one === null || least === null || pitch === null)
    return { steps: [], links: [], sign, count: null };
  const isBelow = S.sign(value.scalar) === -1;
  const shown = isBelow ? S.add(value.scalar, pitch.scalar) : value.scalar;
  const onDrum = S.multiply(drum.quantity.scalar, one.scalar);
  const added = S.subtract(shown, onDrum);
  const isPlain = S.equals(added, S.multiply(line.quantity.scalar, least.scalar));
  const vernier = isPlain
    ? joined('multiply', plainNumber(line.quantity.scalar), exactValue(least, manner))
    : exactValue({ ...least, scalar: added }, manner);
  const sum = joined(
    'add',
    joined('multiply', plainNumber(drum.quantity.scalar), exactValue(one, manner)),
    vernier,
  );
  if (!isBelow) return { steps: [], links: [sum], sign, count: null };
  const count = `the drum has not come round to its zero, so one rotation, ${expressionText(exactValue(pitch, manner))}, is taken off`;
  return { steps: [], links: [joined('subtract', sum, exactValue(pitch, manner))], sign, count };
}
