import type { Step } from '../engine/derivation.ts';
import type { Expression } from '../engine/expression.ts';
import * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import { fineCount } from '../language/facts-divisions.ts';
import { readingsOf } from '../language/facts-position.ts';
import { drumDivision } from '../language/fine-scales.ts';
import type { RowNumber } from '../language/measurement.ts';
import { expressionText } from '../render/expression-text.ts';
import { byTheScales } from './by-the-scales.ts';
import { claimed, vernierShare } from './derive-vernier-reading.ts';
import { type MarkPart, markPart, rotationsPart } from './mark-part.ts';
import { divisionOf, nameOf, type Setting, termSubject, termValue } from './setting.ts';
import { equal, joined, named, sideStep } from './step-parts.ts';
import { vernierDivisions } from './vernier-rule.ts';
import { mannerOf, workedClaim } from './worked-claim.ts';
import { countTimes, exactValue, type Manner, plainNumber } from './written-value.ts';

/** A term of a sum: its formula, its numbers, its value. */
interface Part {
  readonly name: Expression;
  readonly value: Expression;
  readonly scalar: S.Scalar;
}

/**
 * A screw's reading, `LSR + CSR × LC`; with a vernier on the drum `LSR + CSR × CSD + n × LC`.
 *
 * Where the mark is no whole number of rotations the drum does not count on from it; then the rotation that fits is
 * looked for, and a sentence says which.
 */
export function deriveScrewReading(setting: Setting, row: RowNumber): readonly Step[] | null {
  const { facts } = setting;
  const manner = mannerOf(setting, termSubject('observed reading', row));
  const reading = termValue(facts, 'observed reading', row);
  const drum = drumPart(setting, row, manner);
  if (reading === null || drum === null) return null;
  // Where the turns were counted they are whole rotations, as a mark need not be.
  const mark = rotationsPart(setting, row, manner) ?? markPart(setting, 'linear', row, manner);
  if (mark === null) return null;
  const vernier = onDrum(setting, row, reading, drum, manner);
  const rest = S.subtract(S.subtract(reading.scalar, drum.scalar), vernier?.part.scalar ?? S.NOUGHT);
  const isPlain = S.equals(rest, mark.length.scalar);
  const base = isPlain ? null : wholeRotations(setting, rest, reading, mark, manner, drum);
  if (!isPlain && base === null) return null;
  const sum = (which: 'name' | 'value'): Expression => {
    const two = joined('add', (base ?? mark)[which], drum[which]);
    return vernier === null ? two : joined('add', two, vernier.part[which]);
  };
  const before = [...(drum.steps ?? []), ...(base?.steps ?? []), ...(vernier?.steps ?? [])];
  // Rotations that were found, and what the scales themselves gave, have no name in the block.
  if (base !== null || vernier?.isFound) {
    const claim = workedClaim(setting, termSubject('observed reading', row), [sum('value')], null);
    return [...before, claim];
  }
  return [...before, ...claimed(setting, row, sum('name'), sum('value'), { all: null, own: drum.reason })];
}

interface DrumPart extends Part {
  readonly count: Expression;
  readonly steps: readonly Step[] | null;
  readonly reason: string | null;
}

/** What the circular scale adds: its division as read, or how far the disc was turned past whole rotations. */
function drumPart(setting: Setting, row: RowNumber, manner: Manner): DrumPart | null {
  const { facts } = setting;
  const readings = readingsOf(facts, row);
  const drum = drumDivision(facts, readings);
  const one = divisionOf(facts, 'circular scale division') ?? termValue(facts, 'least count');
  if (drum === null || !drum.ok || one === null) return null;
  const hasVernier =
    readings.has('coinciding division') &&
    (facts.scales().vernierBase === 'circular' || divisionOf(facts, 'vernier scale division') === null);
  const step = hasVernier ? nameOf(setting, 'circular') : nameOf(setting, 'least count');
  const part = (name: Expression, count: S.Scalar): Part & { readonly count: Expression } => ({
    name: joined('multiply', name, step),
    value: joined('multiply', plainNumber(count), exactValue(one, manner)),
    scalar: S.multiply(count, one.scalar),
    count: plainNumber(count),
  });
  if (!readings.has('final circular reading')) {
    const estimated = readings.get('circular scale reading');
    const reason =
      estimated?.kind === 'between' && estimated.low.kind === 'count' && estimated.high.kind === 'count'
        ? `The line stands between ${estimated.low.count.text} and ${estimated.high.count.text} of the circular scale, so halfway between them is taken`
        : null;
    return { ...part(nameOf(setting, 'circular scale reading'), drum.quantity.scalar), steps: null, reason };
  }
  return turnedPart(setting, row, drum.quantity.scalar, part);
}

/** `(100 - 92) + 15 = 23`: how far the disc went on from its first division to its last, beyond whole rotations. */
function turnedPart(
  { facts }: Setting,
  row: RowNumber,
  moved: S.Scalar,
  part: (name: Expression, count: S.Scalar) => Part & { readonly count: Expression },
): DrumPart | null {
  const around = fineTurn(facts);
  const count = around === null ? null : S.modulo(moved, around);
  const way = readingsOf(facts, row).get('turned');
  const [first, last] = [
    termValue(facts, 'initial circular reading', row) ?? Q.plain(R.ZERO),
    termValue(facts, 'final circular reading', row),
  ];
  if (around === null || count === null || last === null || way?.kind !== 'direction') return null;
  const isUp = way.toward === 'higher';
  const [low, high] = isUp ? [first, last] : [last, first];
  const number = (value: Q.Quantity): Expression => plainNumber(value.scalar);
  const wraps = S.compare(high.scalar, low.scalar) === -1;
  const difference = wraps
    ? joined('add', joined('subtract', plainNumber(around), number(low)), number(high))
    : joined('subtract', number(high), number(low));
  const passes = wraps ? ' by way of 0' : '';
  const step = sideStep(
    named('divisions turned'),
    [equal(difference), equal(plainNumber(count))],
    `Turned toward ${way.toward} numbers, from ${expressionText(number(first))}${passes} to ${expressionText(number(last))}, the disc went on beyond its whole rotations`,
  );
  return { ...part(plainNumber(count), count), steps: [step], reason: null };
}

function fineTurn(facts: Setting['facts']): S.Scalar | null {
  const [turn, one] = [divisionOf(facts, 'rotation'), divisionOf(facts, 'circular scale division')];
  if (turn !== null && one !== null) return S.divide(turn.scalar, one.scalar);
  const count = fineCount(facts);
  return count.ok ? count.quantity.scalar : null;
}

/** What the vernier on a drum adds to its division, by its rule or by the scales themselves; null without one. */
function onDrum(
  setting: Setting,
  row: RowNumber,
  reading: Q.Quantity,
  drum: Part,
  manner: Manner,
): { readonly part: Part; readonly steps: readonly Step[]; readonly isFound: boolean } | null {
  const { facts } = setting;
  const line = termValue(facts, 'coinciding division', row);
  const vernier = vernierDivisions(facts);
  const pitch = divisionOf(facts, 'rotation');
  if (line !== null && vernier === null) {
    // Of the vernier no more is known than the least count.
    const part = vernierShare(setting, line, manner);
    return part && { part, steps: [], isFound: false };
  }
  if (line === null || vernier?.base !== 'circular' || pitch === null) return null;
  const over = S.modulo(S.subtract(reading.scalar, drum.scalar), pitch.scalar);
  if (over === null) return null;
  const byRule = setting.way === 'scales' ? null : vernierShare(setting, line, manner);
  if (byRule !== null && S.equals(byRule.scalar, over)) return { part: byRule, steps: [], isFound: false };
  const at = { ...reading, scalar: S.add(drum.scalar, over) };
  const from = { ...reading, scalar: drum.scalar };
  const way = byTheScales(setting, { vernier, line: line.scalar, at, from, unknown: 'y' }, manner);
  if (way === null) return null;
  const value = exactValue({ ...reading, scalar: over }, manner);
  const steps = [
    ...way.steps,
    sideStep(
      joined('subtract', named('y'), drum.value),
      [equal(joined('subtract', way.link, drum.value)), equal(value)],
      'Past that division of the circular scale the vernier adds',
    ),
  ];
  return { part: { name: value, value, scalar: over }, steps, isFound: true };
}

/** The whole rotations below a reading, where the mark of the linear scale is none of them. */
function wholeRotations(
  setting: Setting,
  rest: S.Scalar,
  reading: Q.Quantity,
  mark: MarkPart,
  manner: Manner,
  drum: DrumPart,
): (Pick<Part, 'name' | 'value'> & { readonly steps: readonly Step[] }) | null {
  const { facts } = setting;
  const pitch = divisionOf(facts, 'rotation');
  const linear = divisionOf(facts, 'linear scale division');
  const turns = pitch === null ? null : S.divide(rest, pitch.scalar);
  const real = turns === null ? null : S.realValue(turns);
  if (pitch === null || linear === null || turns === null || real === null || !R.isInteger(real)) return null;
  const text = (scalar: S.Scalar): string => expressionText(exactValue({ ...reading, scalar }, manner));
  const value = countTimes(turns, pitch, manner);
  const next = S.add(mark.length.scalar, linear.scalar);
  const whole = exactValue({ ...pitch, scalar: rest }, manner);
  const links =
    expressionText(value) === expressionText(whole) ? [equal(whole)] : [equal(value), equal(whole)];
  const step = sideStep(
    named('whole rotations'),
    links,
    `The mark ${text(mark.length.scalar)} is no whole number of rotations of ${text(pitch.scalar)}; the circular scale shows ${expressionText(drum.count)} once in every rotation, and of those places only ${text(reading.scalar)} lies from the mark on and before the next, ${text(next)}`,
  );
  return { name: value, value, steps: [step] };
}
