import { isPlain } from '../engine/dimension.ts';
import type { Expression } from '../engine/expression.ts';
import type * as Q from '../engine/quantity.ts';
import * as S from '../engine/scalar.ts';
import { evaluateIn } from '../language/evaluate-in.ts';
import { readingsOf } from '../language/facts-position.ts';
import type { Observed, RowNumber } from '../language/measurement.ts';
import type { ObservableTerm } from '../language/term-names.ts';
import { divisionOf, nameOf, type Setting, termValue } from './setting.ts';
import { joined } from './step-parts.ts';
import { recordedPlaces } from './worked-claim.ts';
import { countTimes, exactValue, type Manner } from './written-value.ts';

/** The last mark passed, in a formula by its name, in numbers, and as a length. */
export interface MarkPart {
  readonly name: Expression;
  readonly value: Expression;
  readonly length: Q.Quantity;
}

/** What was read on the coarse scale: a length as recorded, or so many divisions; null where nothing was. */
export function markPart(
  setting: Setting,
  scale: 'main' | 'linear',
  row: RowNumber,
  manner: Manner,
): MarkPart | null {
  const { facts } = setting;
  const readings = readingsOf(facts, row);
  const term: ObservableTerm = readings.has('linear scale reading')
    ? 'linear scale reading'
    : 'main scale reading';
  const observation = readings.get(term);
  if (observation === undefined || observation.kind === 'direction') return null;
  const observed = observation.kind === 'at' ? observation.value : observation.low;
  const value = termValue(facts, term, row);
  if (value === null) return null;
  const name = nameOf(setting, term);
  const counted = countedMark(setting, observed, scale, manner);
  if (counted === null) {
    const atLeast = recordedPlaces(facts, term, row, manner.unit);
    return { name, value: exactValue(value, { ...manner, atLeast }), length: value };
  }
  // A bare count of divisions is a number, so the formula must say of what.
  const isBare = isPlain(value.dimension);
  return { ...counted, name: isBare ? joined('multiply', name, nameOf(setting, scale)) : name };
}

function countedMark(
  { facts }: Setting,
  observed: Observed,
  scale: 'main' | 'linear',
  manner: Manner,
): Pick<MarkPart, 'value' | 'length'> | null {
  if (observed.kind !== 'count') return null;
  const count = evaluateIn(facts, observed.count.expression);
  const one = divisionOf(facts, observed.division ?? `${scale} scale division`);
  if (!count.ok || one === null) return null;
  return {
    value: countTimes(count.quantity.scalar, one, manner),
    length: { ...one, scalar: S.multiply(count.quantity.scalar, one.scalar) },
  };
}

/** The whole rotations that were counted: `full rotations × pitch`; null where none were. */
export function rotationsPart(setting: Setting, row: RowNumber, manner: Manner): MarkPart | null {
  const { facts } = setting;
  const count = termValue(facts, 'full rotations', row);
  const pitch = termValue(facts, 'pitch');
  if (count === null || pitch === null || !isPlain(count.dimension)) return null;
  return {
    name: joined('multiply', nameOf(setting, 'full rotations'), nameOf(setting, 'pitch')),
    value: countTimes(count.scalar, pitch, manner),
    length: { ...pitch, scalar: S.multiply(count.scalar, pitch.scalar) },
  };
}
