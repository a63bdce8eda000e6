import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import { divisionRatio } from '../engine/scales.ts';
import { evaluateIn } from '../language/evaluate-in.ts';
import type { Facts } from '../language/facts.ts';
import { division, fineCount } from '../language/facts-divisions.ts';
import { markPosition } from '../language/facts-position.ts';
import type { Closed, Measurement, Observation, Readings, Stated } from '../language/measurement.ts';
import type { Span } from '../language/syntax.ts';
import type { ObservableTerm } from '../language/term-names.ts';
import { lineCount } from '../language/vernier-lines.ts';
import { shownValue } from '../render/shown-value.ts';
import type { NoteCheck } from './note-check.ts';
import { isHere, readingLacks } from './record-lacks.ts';

export interface Impossible {
  readonly measurement: Measurement;
  readonly span: Span;
  readonly message: string;
  readonly row: number | string | null;
  readonly term: string | null;
}

/** What the instrument cannot show: lines beyond the last, marks that the scale does not have, scales that cannot stand so together. */
export function impossibleReadings(note: NoteCheck): readonly Impossible[] {
  const found: Impossible[] = [];
  for (const facts of note.facts.blocks()) {
    const { measurement } = facts;
    const see = (readings: Readings, row: number | string | null): void => {
      for (const [term, reading] of readings) {
        const fault = faultOf(facts, term, reading);
        if (fault !== null && isHere(measurement, reading.valueSpan))
          found.push({ measurement, span: reading.valueSpan, message: fault, row, term });
      }
    };
    see(measurement.readings, null);
    for (const row of measurement.rows) see(row.readings, row.label ?? row.number);
    for (const closed of measurement.closed) {
      const fault = closedFault(facts, closed);
      if (fault !== null && isHere(measurement, closed.valueSpan))
        found.push({ measurement, span: closed.valueSpan, message: fault, row: null, term: 'closed' });
    }
  }
  const places = new Set(found.map(({ span }) => span.start));
  for (const { measurement, row, span, lack } of readingLacks(note)) {
    if (lack.kind !== 'impossible' || places.has((lack.span ?? span).start)) continue;
    if (found.some(other => other.measurement === measurement && other.row === row)) continue;
    found.push({
      measurement,
      span: lack.span ?? span,
      message: lack.message,
      row,
      term: 'observed reading',
    });
  }
  return found;
}

function faultOf(facts: Facts, term: ObservableTerm, reading: Observation): string | null {
  if (reading.kind === 'direction') return null;
  const values = reading.kind === 'at' ? [reading.value] : [reading.low, reading.high];
  switch (term) {
    case 'coinciding division':
      for (const value of values) {
        if (value.kind === 'count') {
          const fault = lineFault(facts, value.count);
          if (fault !== null) return fault;
        }
      }
      return reading.kind === 'between' ? neighbourFault(facts, reading) : null;
    case 'circular scale reading':
    case 'initial circular reading':
    case 'final circular reading':
      for (const value of values) {
        const fault =
          value.kind === 'count' ? drumFault(facts, value.count, reading.kind === 'between') : null;
        if (fault !== null) return fault;
      }
      return null;
    case 'main scale reading':
    case 'linear scale reading':
    case 'coinciding main mark': {
      const scale = facts.scales().hasCircular || term === 'linear scale reading' ? 'linear' : 'main';
      const step = S.realValue(division(facts, scale) ?? S.TOO_LARGE);
      if (step === null || R.isZero(step)) return null;
      const fault = reading.kind === 'between' ? marksFault(facts, reading, scale, step) : null;
      if (fault !== null) return fault;
      for (const value of values) {
        const at = markPosition(facts, value, scale);
        const place = at.ok ? S.realValue(at.quantity.scalar) : null;
        if (
          at.ok &&
          place !== null &&
          at.quantity.dimension.angle === facts.scales().dimension?.angle &&
          !R.isZero(R.modulo(place, step))
        ) {
          const shown = (scalar: R.Rational): string =>
            shownValue({ ...at.quantity, scalar: S.real(scalar) }, { sexagesimal: true });
          const typed = (value.kind === 'length' ? value.stated : value.count).text;
          const passed = R.subtract(place, R.modulo(place, step));
          return `${typed} is no mark of the ${scale} scale, whose marks are ${shown(step)} apart; the mark just passed is ${shown(passed)}`;
        }
      }
      return null;
    }
    default:
      return null;
  }
}

/** Two marks that the zero stands between are neighbours. */
function marksFault(
  facts: Facts,
  reading: Extract<Observation, { readonly kind: 'between' }>,
  scale: 'main' | 'linear',
  step: R.Rational,
): string | null {
  const low = markPosition(facts, reading.low, scale);
  const high = markPosition(facts, reading.high, scale);
  const from = low.ok ? S.realValue(low.quantity.scalar) : null;
  const to = high.ok ? S.realValue(high.quantity.scalar) : null;
  if (from === null || to === null || R.equals(R.subtract(to, from), step)) return null;
  return `the zero stands between two neighbouring marks, but these are not one ${scale} scale division apart`;
}

function numberOf(facts: Facts, stated: Stated): R.Rational | null {
  const value = evaluateIn(facts, stated.expression);
  return value.ok ? S.realValue(value.quantity.scalar) : null;
}

function lineFault(facts: Facts, stated: Stated): string | null {
  const line = numberOf(facts, stated);
  if (line === null) return null;
  if (R.sign(line) < 0)
    return `the lines of a vernier are counted from 0, so there is no line ${stated.text}`;
  const lines = lineCount(facts);
  if (lines !== null && R.compare(line, R.rational(lines)) > 0)
    return `the vernier has ${lines} divisions, so its last line is ${lines} and there is no line ${stated.text}`;
  if (!R.isInteger(line))
    return `a vernier is read by its whole lines; where two share the coincidence write between … and …, not ${stated.text}`;
  return null;
}

function neighbourFault(
  facts: Facts,
  reading: Extract<Observation, { readonly kind: 'between' }>,
): string | null {
  if (reading.low.kind !== 'count' || reading.high.kind !== 'count') return null;
  const low = numberOf(facts, reading.low.count);
  const high = numberOf(facts, reading.high.count);
  if (low === null || high === null || R.equals(R.abs(R.subtract(high, low)), R.ONE)) return null;
  return 'two lines can share the coincidence only when they are neighbours';
}

function drumFault(facts: Facts, stated: Stated, isBetween: boolean): string | null {
  const at = numberOf(facts, stated);
  if (at === null) return null;
  if (R.sign(at) < 0) return `the circular scale is counted from 0, so there is no division ${stated.text}`;
  const turns = divisionRatio(facts.scales().scales, 'rotation', 'circular');
  const count = turns === null ? null : S.realValue(turns);
  if (count === null) {
    const fine = fineCount(facts);
    if (!fine.ok) return null;
  }
  // Between the last division and the zero that follows it, N itself may be named.
  if (count !== null && (isBetween ? R.compare(at, count) > 0 : R.compare(at, count) >= 0)) {
    return `the circular scale has ${R.toFractionText(count)} divisions, numbered 0 to ${R.toFractionText(R.subtract(count, R.ONE))}, so ${stated.text} cannot be read on it`;
  }
  return null;
}

function closedFault(facts: Facts, closed: Closed): string | null {
  const { position } = closed;
  if (position.kind !== 'division') return null;
  if (position.vernierDivision !== null) {
    const fault = lineFault(facts, position.vernierDivision);
    if (fault !== null) return fault;
  }
  const { division: first, nextDivision: next } = position;
  if (first === null) return null;
  for (const stated of next === null ? [first] : [first, next]) {
    const fault =
      position.scale === 'vernier' ? lineFault(facts, stated) : drumFault(facts, stated, next !== null);
    if (fault !== null) return fault;
  }
  const [low, high] = [numberOf(facts, first), next === null ? null : numberOf(facts, next)];
  return low === null || high === null || R.equals(R.subtract(high, low), R.ONE)
    ? null
    : 'the closed instrument stands between two neighbouring divisions, the lower one said first';
}
