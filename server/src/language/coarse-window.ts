import { sameDimension } from '../engine/dimension.ts';
import type * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import type { ScaleSays } from '../engine/reading.ts';
import * as S from '../engine/scalar.ts';
import type { Unit } from '../engine/unit.ts';
import { type Answer, computed, lacking, missing, REPORTED } from './answer.ts';
import { whyNotBare } from './bare-scale.ts';
import { evaluateIn } from './evaluate-in.ts';
import type { Facts } from './facts.ts';
import { division } from './facts-divisions.ts';
import { markPosition } from './facts-position.ts';
import { DIVISION_TERM } from './facts-scales.ts';
import type { Observation, Readings } from './measurement.ts';
import type { ObservableTerm } from './term-names.ts';

type Coarse =
  | {
      readonly ok: true;
      readonly says: Extract<ScaleSays, { readonly kind: 'window' }>;
      readonly unit: Unit | null;
      readonly letters: Q.Quantity | null;
    }
  | { readonly ok: false; readonly answer: Answer };

/** The last mark passed, and how far the next one is. */
export function coarseWindow(facts: Facts, readings: Readings): Coarse {
  const { hasCircular, unit } = facts.scales();
  const mark = readings.get('linear scale reading') ?? readings.get('main scale reading');
  if (mark !== undefined && mark.kind !== 'direction') {
    const isLinear = hasCircular || readings.has('linear scale reading');
    return fromMark(facts, mark, isLinear ? 'linear' : 'main', unit);
  }
  const rotations = readings.get('full rotations');
  if (rotations !== undefined && rotations.kind !== 'direction') return fromRotations(facts, rotations, unit);
  const term: ObservableTerm = hasCircular ? 'linear scale reading' : 'main scale reading';
  const more = hasCircular ? ' or the whole turns (`full rotations: …`)' : '';
  return {
    ok: false,
    answer: missing(
      `nothing in this block determines the observed reading: record the ${term} (\`${term}: …\`)${more}`,
    ),
  };
}

type Seen = Exclude<Observation, { readonly kind: 'direction' }>;

/** The division above a mark. */
function fromMark(facts: Facts, mark: Seen, scale: 'main' | 'linear', usual: Unit | null): Coarse {
  const at = markPosition(facts, mark.kind === 'at' ? mark.value : mark.low, scale);
  if (!at.ok) return { ok: false, answer: at };
  // A mark in grams on a scale of millimetres is found fault with where it is recorded.
  if (isOtherKind(facts, at.quantity)) return { ok: false, answer: REPORTED };
  const width = division(facts, scale);
  if (width === null) {
    const subject = { kind: 'division', division: DIVISION_TERM[scale], block: null } as const;
    return { ok: false, answer: facts.value(subject) };
  }
  const unit = at.quantity.unit ?? usual;
  const place = S.realValue(at.quantity.scalar);
  const step = S.realValue(width);
  if (place === null || step === null)
    return { ok: true, says: window(R.ZERO, R.ONE), unit, letters: at.quantity };
  if (R.isZero(R.modulo(place, step))) return { ok: true, says: window(place, step), unit, letters: null };
  const message = `no mark of the ${scale} scale stands there`;
  return { ok: false, answer: lacking({ kind: 'impossible', message, span: mark.valueSpan }) };
}

/** The turn above so many whole ones. */
function fromRotations(facts: Facts, rotations: Seen, unit: Unit | null): Coarse {
  const low = rotations.kind === 'at' ? rotations.value : rotations.low;
  const { expression } = low.kind === 'count' ? low.count : low.stated;
  const count = evaluateIn(facts, expression);
  if (!count.ok) return { ok: false, answer: count };
  const turn = facts.value({ kind: 'division', division: 'rotation', block: null });
  if (!turn.ok) return { ok: false, answer: facts.term('pitch') };
  const at = S.multiply(count.quantity.scalar, turn.quantity.scalar);
  const from = S.realValue(at);
  const width = S.realValue(turn.quantity.scalar);
  return from === null || width === null
    ? { ok: true, says: window(R.ZERO, R.ONE), unit, letters: { ...turn.quantity, scalar: at } }
    : { ok: true, says: window(from, width), unit, letters: null };
}

/** Without a fine scale the reading is the mark itself. */
export function bareReading(facts: Facts, coarse: Extract<Coarse, { readonly ok: true }>): Answer {
  const { dimension } = facts.scales();
  const why = whyNotBare(facts, 'observed reading');
  if (why !== null) return why;
  return dimension === null
    ? REPORTED
    : computed({ scalar: S.real(coarse.says.from), dimension, unit: coarse.unit });
}

/** Whether a mark is no place on the scale: a mass, or an angle on a scale of lengths; nought is a place on all. */
function isOtherKind(facts: Facts, at: Q.Quantity): boolean {
  const { dimension } = facts.scales();
  return dimension !== null && !S.isZero(at.scalar) && !sameDimension(at.dimension, dimension);
}

function window(from: R.Rational, width: R.Rational): Extract<ScaleSays, { readonly kind: 'window' }> {
  return { kind: 'window', from, width };
}
