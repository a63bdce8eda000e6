import { type Dimension, dimension, dimensionText, isPlain, sameDimension } from '../engine/dimension.ts';
import type * as Q from '../engine/quantity.ts';
import * as S from '../engine/scalar.ts';
import { evaluateStated } from '../language/evaluate-in.ts';
import type { Facts } from '../language/facts.ts';
import type { Measurement, Observation, Observed, Readings, Stated } from '../language/measurement.ts';
import type { Span } from '../language/syntax.ts';
import type { NoteCheck } from './note-check.ts';
import { oncePerNote } from './once-per-note.ts';
import { isHere } from './record-lacks.ts';
import { behindNumber, shownUnit } from './shown-unit.ts';

/** A record whose value is of another kind than its scales, or has no unit at all. */
export interface OddRecord {
  readonly measurement: Measurement;
  readonly span: Span;
  readonly kind: 'mismatch' | 'bare';
  readonly message: string;
  /** The value with the likely unit, for a bare number. */
  readonly likely: string | null;
}

/** Records of another kind than what they belong to: grams on a scale of millimetres, a pitch without its unit. */
export const oddRecords = oncePerNote(findOddRecords);

function findOddRecords(note: NoteCheck): readonly OddRecord[] {
  return note.facts.blocks().flatMap(facts => {
    const odd: OddRecord[] = [];
    const see = judgeWith(facts, odd);
    const { measurement } = facts;
    const { dimension } = facts.scales();
    seeReadings(measurement.readings, dimension, see);
    for (const row of measurement.rows) seeReadings(row.readings, dimension, see);
    for (const [term, given] of measurement.givens) {
      if (term !== 'mean absolute error' && term !== 'standard deviation')
        see(given.stated, dimension, `the ${term}`, given.span);
    }
    if (measurement.range !== null) {
      const { from, to, span } = measurement.range;
      see(from, dimension, 'the measuring range', span);
      see(to, dimension, 'the measuring range', span);
    }
    for (const [name, record] of measurement.own) {
      if (record.kind === 'list') seeList(facts, name, record.values, record.span, see);
      if (record.kind === 'value') seeError(facts, record.given.stated, name, record.given.span, odd);
    }
    seeChoices(facts, see);
    seeScales(facts, odd);
    return odd;
  });
}

/** `screw: 5 rotations = 2.5`: a side of a scale without its unit. */
function seeScales(facts: Facts, odd: OddRecord[]): void {
  for (const { span, trouble } of facts.scales().formTroubles) {
    const side = facts.measurement.scales
      .flatMap(record => record.sides)
      .find(stated => stated.span.start === span.start);
    if (trouble.kind !== 'bare-number' || side === undefined || !isHere(facts.measurement, span)) continue;
    const likely = `${side.text}${behindNumber(likelyUnit(facts, null))}`;
    odd.push({
      measurement: facts.measurement,
      span,
      kind: 'bare',
      likely,
      message: `this side of the scale is the bare number ${side.text}; say which divisions or which unit it counts, as in ${likely}`,
    });
  }
}

type See = (stated: Stated, wanted: Dimension | null, what: string, span: Span) => void;

function judgeWith(facts: Facts, odd: OddRecord[]): See {
  return (stated, wanted, what, span) => {
    if (!isHere(facts.measurement, span)) return;
    const value = evaluateStated(facts, stated, wanted);
    if (!value.ok || S.isZero(value.quantity.scalar)) return;
    const { quantity } = value;
    const at = stated.spans.get(stated.expression) ?? stated.span;
    if (
      isPlain(quantity.dimension) &&
      !isPlain(wanted ?? LENGTH) &&
      !stated.hasUnit &&
      S.realValue(quantity.scalar) !== null
    ) {
      const likely = `${stated.text}${behindNumber(likelyUnit(facts, wanted))}`;
      odd.push({
        measurement: facts.measurement,
        span: at,
        kind: 'bare',
        likely,
        message: `${stated.text} has no unit, so nobody knows what ${what} is; ${likely} is likely meant`,
      });
    } else if (wanted !== null && !sameDimension(quantity.dimension, wanted)) {
      odd.push({
        measurement: facts.measurement,
        span: at,
        kind: 'mismatch',
        likely: null,
        message: `${what} is ${dimensionText(quantity.dimension)}, but it has to be ${dimensionText(wanted)} here`,
      });
    }
  };
}

const LENGTH: Dimension = dimension({ length: 1 });

function likelyUnit(facts: Facts, wanted: Dimension | null): string {
  const { unit, dimension } = facts.scales();
  const like: Q.Quantity = {
    scalar: S.UNITY,
    dimension: wanted ?? dimension ?? LENGTH,
    unit: unit !== null && (wanted === null || sameDimension(unit.dimension, wanted)) ? unit : null,
  };
  return like.unit === null && sameDimension(like.dimension, LENGTH) ? 'mm' : shownUnit(like);
}

function seeReadings(readings: Readings, wanted: Dimension | null, see: See): void {
  for (const [term, reading] of readings) {
    for (const observed of observedOf(reading)) {
      if (observed.kind === 'length') see(observed.stated, wanted, `the ${term}`, reading.span);
    }
  }
}

function observedOf(reading: Observation): readonly Observed[] {
  return reading.kind === 'at'
    ? [reading.value]
    : reading.kind === 'between'
      ? [reading.low, reading.high]
      : [];
}

/** The values of a list are of one kind, that of the first. */
function seeList(facts: Facts, name: string, values: readonly Stated[], span: Span, see: See): void {
  const [first, ...others] = values;
  const kind = first === undefined ? null : evaluateStated(facts, first);
  if (!kind?.ok) return;
  for (const value of others) see(value, kind.quantity.dimension, `a value of ${name}`, span);
}

/** What stands behind ± is of the kind of its value, or a part of it in per cent. */
function seeError(facts: Facts, stated: Stated, name: string, span: Span, odd: OddRecord[]): void {
  if (stated.error === null || !isHere(facts.measurement, span)) return;
  const value = evaluateStated(facts, stated);
  const error = evaluateStated(facts, { ...stated, expression: stated.error, readings: [], mixed: [] });
  if (
    !value.ok ||
    !error.ok ||
    isPlain(error.quantity.dimension) ||
    sameDimension(value.quantity.dimension, error.quantity.dimension)
  )
    return;
  const at = stated.spans.get(stated.error) ?? stated.span;
  odd.push({
    measurement: facts.measurement,
    span: at,
    kind: 'mismatch',
    likely: null,
    message: `${name} is ${dimensionText(value.quantity.dimension)}, but its error is ${dimensionText(error.quantity.dimension)}`,
  });
}

/** Choices and a key that is a value need their unit; a choice of another kind is simply wrong. */
function seeChoices(facts: Facts, see: See): void {
  const { find, options, answer } = facts.measurement.question;
  if (find === null) return;
  const truth = facts.value(find.subject);
  if (!truth.ok) return;
  const { dimension } = truth.quantity;
  const bare = (stated: Stated, what: string, span: Span): void => {
    if (!stated.hasUnit) see(stated, dimension, what, span);
  };
  for (const option of options)
    if (option.stated !== null) bare(option.stated, `option ${option.letter}`, option.span);
  if (answer?.stated) bare(answer.stated, 'the key', answer.span);
}
