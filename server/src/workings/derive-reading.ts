import type { Derivation, Step } from '../engine/derivation.ts';
import { sameDimension } from '../engine/dimension.ts';
import type { Expression } from '../engine/expression.ts';
import type * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import { unitShown } from '../engine/unit.ts';
import { readingsOf } from '../language/facts-position.ts';
import type { RowNumber, Subject } from '../language/measurement.ts';
import type { ComputedTerm } from '../language/term-names.ts';
import { expressionText } from '../render/expression-text.ts';
import { deriveObservable } from './derive-observable.ts';
import { deriveScrewReading } from './derive-screw-reading.ts';
import { claimed, deriveVernierReading, vernierShare } from './derive-vernier-reading.ts';
import { markPart } from './mark-part.ts';
import { otherRows } from './other-rows.ts';
import { divisionOf, nameOf, type Setting, settingOf, termSubject, termValue } from './setting.ts';
import { equal, joined, named, sideStep } from './step-parts.ts';
import { leastPlaces, mannerOf, titleOf, workedClaim } from './worked-claim.ts';
import type { Deriving } from './working.ts';
import { exactValue, type Manner, plainNumber } from './written-value.ts';

/**
 * How an observed reading, the vernier's share of it or a corrected reading follows from what was seen.
 *
 * Null where it is recorded or given, of another block, or not determined.
 */
export function deriveReading(deriving: Deriving, subject: Subject): Derivation | null {
  if (subject.kind !== 'term' || subject.block !== null) return null;
  const { facts } = deriving;
  const answer = facts.value(subject);
  if (!answer.ok || answer.source !== 'computed') return null;
  // What is given stands as it is where nothing was read.
  const isGiven = subject.row === null && facts.measurement.givens.has(subject.term as ComputedTerm);
  if (isGiven && readingsOf(facts, null).size === 0) return null;
  const setting = settingOf(deriving);
  const steps = stepsFor(setting, subject.term, subject.row);
  if (steps === null) return null;
  return {
    title: titleOf(facts, subject),
    steps: [...steps, ...otherRows(setting, subject.term, subject.row)],
  };
}

function stepsFor(
  setting: Setting,
  term: Extract<Subject, { readonly kind: 'term' }>['term'],
  row: RowNumber,
): readonly Step[] | null {
  switch (term) {
    case 'observed reading':
      return observedSteps(setting, row);
    case 'corrected reading':
      return correctedSteps(setting, row);
    case 'vernier scale reading':
      return vernierScaleSteps(setting, row);
    default:
      return deriveObservable(setting, term, row);
  }
}

function observedSteps(setting: Setting, row: RowNumber): readonly Step[] | null {
  const { facts } = setting;
  const { hasCircular, hasVernier } = facts.scales();
  const readings = readingsOf(facts, row);
  const isRead = readings.size > 0;
  if (isForeign(setting, row)) return null;
  const found = !isRead
    ? fromCorrected(setting)
    : readings.has('coinciding main mark')
      ? byMainMark(setting, row)
      : hasCircular
        ? deriveScrewReading(setting, row)
        : hasVernier
          ? deriveVernierReading(setting, row)
          : onBareScale(setting, row);
  // What nothing simpler gives is still the one place that fits.
  const fits = 'The one place that fits all that the scales show';
  return found ?? [workedClaim(setting, termSubject('observed reading', row), [], fits)];
}

/** A mark of another kind than the scales, a mass or a bare number: that is a finding of its own, and nothing to go on from. */
function isForeign({ facts }: Setting, row: RowNumber): boolean {
  const { dimension } = facts.scales();
  return MARKS.some(term => {
    const observation = readingsOf(facts, row).get(term);
    const isLength = observation?.kind === 'at' && observation.value.kind === 'length';
    const value = isLength ? termValue(facts, term, row) : null;
    return value !== null && dimension !== null && !sameDimension(value.dimension, dimension);
  });
}

const MARKS = ['main scale reading', 'linear scale reading', 'coinciding main mark'] as const;

/** `21 mm - 8 × 0.9 mm`: from the mark in line back to the vernier's zero. */
function byMainMark(setting: Setting, row: RowNumber): readonly Step[] | null {
  const { facts } = setting;
  const manner = mannerOf(setting, termSubject('observed reading', row));
  const mark = termValue(facts, 'coinciding main mark', row);
  const line = termValue(facts, 'coinciding division', row);
  const fine = divisionOf(facts, 'vernier scale division');
  const length = mark !== null && mark.dimension.length + mark.dimension.angle === 0 ? null : mark;
  if (length === null || line === null || fine === null) return null;
  const sign = facts.measurement.runsBackward ? 'add' : 'subtract';
  const n = nameOf(setting, 'coinciding division');
  const along = joined('multiply', n, nameOf(setting, 'vernier'));
  const numbers = joined('multiply', plainNumber(line.scalar), exactValue(fine, manner));
  const name = joined(sign, nameOf(setting, 'coinciding main mark'), along);
  const where = facts.measurement.runsBackward ? 'on from the mark in line' : 'back from the mark in line';
  const divisions = S.equals(line.scalar, S.UNITY) ? 'division' : 'divisions';
  const reason = `The zero of the vernier stands ${S.scalarText(line.scalar)} vernier ${divisions} ${where}`;
  return claimed(setting, row, name, joined(sign, exactValue(length, manner), numbers), {
    all: null,
    own: reason,
  });
}

function onBareScale(setting: Setting, row: RowNumber): readonly Step[] | null {
  const manner = mannerOf(setting, termSubject('observed reading', row));
  const mark = markPart(setting, setting.facts.scales().hasCircular ? 'linear' : 'main', row, manner);
  if (mark === null) return null;
  const all = 'Without a fine scale the reading is the mark itself';
  return claimed(setting, row, mark.name, mark.value, { all, own: null });
}

/** The corrected reading is given: the zero error is put back. */
function fromCorrected(setting: Setting): readonly Step[] | null {
  const { facts } = setting;
  const subject = termSubject('observed reading');
  const manner = mannerOf(setting, subject);
  const [corrected, error] = [termValue(facts, 'corrected reading'), termValue(facts, 'zero error')];
  if (corrected === null || error === null) return null;
  return [
    workedClaim(
      setting,
      subject,
      [
        joined('add', nameOf(setting, 'corrected reading'), nameOf(setting, 'zero error')),
        joined('add', exactValue(corrected, manner), exactValue(error, manner)),
      ],
      'The instrument shows the true size and its zero error with it',
    ),
  ];
}

/** `corrected reading = observed reading - zero error`, with the minus of a negative error in brackets. */
function correctedSteps(setting: Setting, row: RowNumber): readonly Step[] | null {
  const { facts } = setting;
  const subject = termSubject('corrected reading', row);
  const manner = mannerOf(setting, subject);
  const [observed, error] = [termValue(facts, 'observed reading', row), termValue(facts, 'zero error')];
  if (observed === null || error === null) return null;
  const name = joined('subtract', nameOf(setting, 'observed reading'), nameOf(setting, 'zero error'));
  const shown = exactValue(observed, { ...manner, atLeast: leastPlaces(setting.facts, manner.unit) });
  const zero = S.isZero(error.scalar)
    ? { ...error, dimension: observed.dimension, unit: manner.unit }
    : error;
  const value = joined('subtract', shown, zeroPart(setting, zero, manner));
  const own = mannerOf(setting, termSubject('zero error')).unit;
  const isOther =
    own !== null && manner.unit !== null && own.symbol !== manner.unit.symbol && !manner.sexagesimal;
  const reason =
    isOther && !S.isZero(error.scalar)
      ? `The reading is in ${unitShown(manner.unit!)}, so the zero error goes in as ${signedText(exactValue(error, manner))}`
      : null;
  // A zero error that is given as a bare nought is no length that a formula could take off.
  const isNamed = sameDimension(observed.dimension, error.dimension);
  if (row === null) return [workedClaim(setting, subject, isNamed ? [name, value] : [value], reason)];
  const claim = workedClaim(setting, subject, [value]);
  return row === 1 ? [sideStep(named('corrected reading'), [equal(name)], reason), claim] : [claim];
}

/** A zero error as it is put in; a mean without end as its sum over the number of checks: `-0.04 mm / 3`. */
function zeroPart({ facts }: Setting, zero: Q.Quantity, manner: Manner): Expression {
  const isNought = S.isZero(zero.scalar);
  const value = exactValue(zero, { ...manner, atLeast: isNought ? 0 : leastPlaces(facts, manner.unit) });
  const size = value.kind === 'negate' ? value.of : value;
  const checks = facts.measurement.closed.length;
  if (size.kind !== 'measured' || checks < 2) return value;
  const count = S.real(R.rational(checks));
  const sum = exactValue({ ...zero, scalar: S.multiply(zero.scalar, count) }, manner);
  const whole = sum.kind === 'negate' ? sum.of : sum;
  if (whole.kind === 'measured') return value;
  const mean = joined('divide', whole, plainNumber(count));
  return sum.kind === 'negate' ? { kind: 'negate', of: mean } : mean;
}

function signedText(value: Expression): string {
  const text = expressionText(value);
  return value.kind === 'negate' ? text : `+${text}`;
}

/** What the vernier adds to the mark before its zero. */
function vernierScaleSteps(setting: Setting, row: RowNumber): readonly Step[] | null {
  const { facts } = setting;
  const subject = termSubject('vernier scale reading', row);
  const manner = mannerOf(setting, subject);
  const value = termValue(facts, 'vernier scale reading', row);
  const line = termValue(facts, 'coinciding division', row);
  if (value === null) return null;
  const share = line === null ? null : vernierShare(setting, line, manner);
  if (share !== null && S.equals(share.scalar, value.scalar))
    return [workedClaim(setting, subject, row === null ? [share.name, share.value] : [share.value])];
  const mark = markPart(setting, 'main', row, manner);
  const observed = termValue(facts, 'observed reading', row);
  if (mark === null || observed === null || facts.scales().vernierBase === 'circular')
    return [workedClaim(setting, subject, [])];
  const numbers = joined(
    'subtract',
    exactValue(observed, { ...manner, atLeast: leastPlaces(setting.facts, manner.unit) }),
    mark.value,
  );
  const name = joined('subtract', nameOf(setting, 'observed reading'), mark.name);
  const reason = 'The vernier adds what the reading has beyond the mark before its zero';
  return [workedClaim(setting, subject, row === null ? [name, numbers] : [numbers], reason)];
}
