import type * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import { type Answer, computed, lacking, missing, REPORTED } from './answer.ts';
import { evaluateIn } from './evaluate-in.ts';
import type { Facts } from './facts.ts';
import { division } from './facts-divisions.ts';
import { markPosition } from './facts-position.ts';
import type { Readings } from './measurement.ts';
import { inUnitText, onCircle } from './shown-position.ts';

/** `x = m·S - k·V`: the main mark in line with the line gives the reading without the mark before zero. */
export function byMainMark(facts: Facts, readings: Readings): Answer {
  const mark = readings.get('coinciding main mark');
  const line = readings.get('coinciding division');
  if (mark?.kind !== 'at') return REPORTED;
  if (line?.kind !== 'at' || line.value.kind !== 'count') {
    return missing(
      'the coinciding main mark fixes the reading together with the coinciding division: record it (`coinciding division: …`)',
    );
  }
  const scale = facts.scales().vernierBase === 'linear' ? 'linear' : 'main';
  const at = markPosition(facts, mark.value, scale);
  const count = evaluateIn(facts, line.value.count.expression);
  const vernier = facts.value({ kind: 'division', division: 'vernier scale division', block: null });
  if (!at.ok) return at;
  if (!count.ok) return count;
  if (!vernier.ok) return vernier;
  const along = S.multiply(count.quantity.scalar, vernier.quantity.scalar);
  const scalar = facts.measurement.runsBackward
    ? S.add(at.quantity.scalar, along)
    : S.subtract(at.quantity.scalar, along);
  const reading = { ...at.quantity, scalar };
  const before = readings.get('main scale reading');
  const low = before?.kind === 'at' ? markPosition(facts, before.value, scale) : null;
  if (low !== null) {
    const width = division(facts, scale);
    const inside =
      low.ok &&
      width !== null &&
      S.compare(low.quantity.scalar, scalar) !== 1 &&
      S.compare(scalar, S.add(low.quantity.scalar, width)) === -1;
    if (!inside && low.ok) {
      return lacking({
        kind: 'impossible',
        message: wrongMark(facts, line.value.count.text, low.quantity, along, width),
        span: mark.valueSpan,
      });
    }
  }
  const isBelow = [at, low].some(mark => mark?.ok === true && S.sign(mark.quantity.scalar) === -1);
  return computed(onCircle(facts, reading, isBelow));
}

/** `line 4 of the vernier would be in line with 16 mm`, the mark that belongs to the mark before the zero. */
function wrongMark(
  facts: Facts,
  line: string,
  low: Q.Quantity,
  along: S.Scalar,
  width: S.Scalar | null,
): string {
  const step = width === null ? null : S.realValue(width);
  const meets = S.realValue(
    facts.measurement.runsBackward ? S.subtract(low.scalar, along) : S.add(low.scalar, along),
  );
  const count = step === null || meets === null ? null : R.divide(meets, step);
  if (step === null || count === null)
    return 'the main mark in line and the mark before the zero do not belong to one position';
  const mark = inUnitText({ ...low, scalar: S.real(R.multiply(R.ceil(count), step)) }, low.unit);
  const before = inUnitText(low, low.unit);
  return `with the zero just past ${before}, line ${line} of the vernier would be in line with ${mark}, so the two marks do not belong to one position`;
}
