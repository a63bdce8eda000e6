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
import type { Readings } from './measurement.ts';
import type { ObservableTerm } from './term-names.ts';

/** Without a fine scale the reading is the mark itself. */
export function bareReading(facts: Facts, coarse: Extract<Coarse, { readonly ok: true }>): Answer {
  const { dimension } = facts.scales();
  const why = whyNotBare(facts, 'observed reading');
  if (why !== null) return why;
  return dimension === null
    ? REPORTED
    : computed({ scalar: S.real(coarse.says.from), dimension, unit: coarse.unit });
}

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
  const rotations = readings.get('full rotations');
  const mark = readings.get('linear scale reading') ?? readings.get('main scale reading');
  const scale = hasCircular || readings.has('linear scale reading') ? 'linear' : 'main';
  if (mark !== undefined && mark.kind !== 'direction') {
    const at = markPosition(facts, mark.kind === 'at' ? mark.value : mark.low, scale);
    if (!at.ok) return { ok: false, answer: at };
    // A mark in grams on a scale of millimetres is found fault with where it is recorded.
    if (isOtherKind(facts, at.quantity)) return { ok: false, answer: REPORTED };
    const width = division(facts, scale);
    if (width === null)
      return {
        ok: false,
        answer: facts.value({
          kind: 'division',
          division: scale === 'main' ? 'main scale division' : 'linear scale division',
          block: null,
        }),
      };
    const place = S.realValue(at.quantity.scalar);
    const step = S.realValue(width);
    if (place !== null && step !== null && !R.isZero(R.modulo(place, step))) {
      return {
        ok: false,
        answer: lacking({
          kind: 'impossible',
          message: `no mark of the ${scale} scale stands there`,
          span: mark.valueSpan,
        }),
      };
    }
    if (S.realValue(at.quantity.scalar) === null || S.realValue(width) === null) {
      return { ok: true, says: window(R.ZERO, R.ONE), unit: at.quantity.unit ?? unit, letters: at.quantity };
    }
    return {
      ok: true,
      says: window(S.realValue(at.quantity.scalar)!, S.realValue(width)!),
      unit: at.quantity.unit ?? unit,
      letters: null,
    };
  }
  if (rotations !== undefined && rotations.kind !== 'direction') {
    const low = rotations.kind === 'at' ? rotations.value : rotations.low;
    const count =
      low.kind === 'count'
        ? evaluateIn(facts, low.count.expression)
        : evaluateIn(facts, low.stated.expression);
    if (!count.ok) return { ok: false, answer: count };
    const turn = facts.value({ kind: 'division', division: 'rotation', block: null });
    if (!turn.ok) return { ok: false, answer: facts.term('pitch') };
    const at = S.multiply(count.quantity.scalar, turn.quantity.scalar);
    const from = S.realValue(at);
    const width = S.realValue(turn.quantity.scalar);
    if (from === null || width === null)
      return { ok: true, says: window(R.ZERO, R.ONE), unit, letters: { ...turn.quantity, scalar: at } };
    return { ok: true, says: window(from, width), unit, letters: null };
  }
  const term: ObservableTerm = hasCircular ? 'linear scale reading' : 'main scale reading';
  const more = hasCircular ? ' or the whole turns (`full rotations: …`)' : '';
  return {
    ok: false,
    answer: missing(
      `nothing in this block determines the observed reading: record the ${term} (\`${term}: …\`)${more}`,
    ),
  };
}

/** Whether a mark is no place on the scale: a mass, or an angle on a scale of lengths; nought is a place on all. */
function isOtherKind(facts: Facts, at: Q.Quantity): boolean {
  const { dimension } = facts.scales();
  return dimension !== null && !S.isZero(at.scalar) && !sameDimension(at.dimension, dimension);
}

function window(from: R.Rational, width: R.Rational): Extract<ScaleSays, { readonly kind: 'window' }> {
  return { kind: 'window', from, width };
}
