import * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import type { ScaleSays } from '../engine/reading.ts';
import * as S from '../engine/scalar.ts';
import { type Answer, computed, missing, REPORTED } from './answer.ts';
import { evaluateIn } from './evaluate-in.ts';
import type { Facts } from './facts.ts';
import { division } from './facts-divisions.ts';
import type { Observation, Readings } from './measurement.ts';
import type { ObservableTerm } from './term-names.ts';
import { congruenceOf } from './vernier-lines.ts';

/** Adds what the fine scales say; an answer when something is missing or impossible. */
export function fineScales(facts: Facts, readings: Readings, says: ScaleSays[]): Answer | null {
  const { hasVernier, hasCircular, vernierBase } = facts.scales();
  const line = readings.get('coinciding division');
  const drum = drumDivision(facts, readings);
  if (drum !== null && !drum.ok) return drum;
  const turn = S.realValue(division(facts, 'rotation') ?? S.TOO_LARGE);
  const step = S.realValue(division(facts, 'circular') ?? S.TOO_LARGE);
  if (hasCircular) {
    if (drum === null)
      return missing(
        'nothing in this block determines the observed reading: record the circular scale reading (`circular scale reading: …`)',
      );
    if (turn === null || step === null) return lackOfScrew(facts);
    const at = R.multiply(S.realValue(drum.quantity.scalar) ?? R.ZERO, step);
    const past = pastDivision(facts, line);
    if (past !== null) {
      says.push({ kind: 'congruence', residue: R.add(at, past), modulus: turn });
      return null;
    }
    if (vernierBase === 'circular' && line !== undefined)
      says.push({ kind: 'round', from: at, width: step, period: turn });
    else says.push({ kind: 'congruence', residue: at, modulus: turn });
  }
  if (line === undefined) {
    if (hasCircular || !hasVernier) return null;
    return missing(
      'nothing in this block determines the observed reading: record the coinciding division (`coinciding division: …`)',
    );
  }
  if (line.kind !== 'at' || line.value.kind !== 'count') return null;
  const count = evaluateIn(facts, line.value.count.expression);
  if (!count.ok) return count;
  const congruence = congruenceOf(facts, count.quantity.scalar);
  if (congruence === null) {
    const vernier = facts.value({ kind: 'division', division: 'vernier scale division', block: null });
    if (!vernier.ok) return vernier;
    const least = facts.term('least count');
    return least.ok ? REPORTED : least;
  }
  says.push({ kind: 'congruence', ...congruence });
  return null;
}

/**
 * How far the line is past the drum's division where a vernier on the drum is known by a given least count only: so many
 * least counts as the number of its line says. Null where its divisions are known, or nothing of it is.
 */
function pastDivision(facts: Facts, line: Observation | undefined): R.Rational | null {
  if (line?.kind !== 'at' || line.value.kind !== 'count' || division(facts, 'vernier') !== null) return null;
  const given = facts.measurement.givens.get('least count');
  const least = given === undefined ? null : evaluateIn(facts, given.stated.expression);
  const count = evaluateIn(facts, line.value.count.expression);
  if (!least?.ok || !count.ok) return null;
  return S.realValue(S.multiply(least.quantity.scalar, count.quantity.scalar));
}

/** Why a circular scale reading says nothing: it is recorded, but not what a turn and a division of the scale make. */
function lackOfScrew(facts: Facts): Answer {
  const { hasVernier } = facts.scales();
  if (hasVernier && !facts.measurement.scales.some(({ scale }) => /circular|screw/.test(scale)))
    return missing(
      'a circular scale reading is recorded, but no screw; record the line of the vernier instead (`coinciding division: …`), or the pitch and the circular scale',
    );
  const pitch = facts.term('pitch');
  const least = pitch.ok ? facts.term('least count') : pitch;
  return least.ok
    ? missing(
        'nothing in this block says what a division of the circular scale makes: record it (`circular scale: … divisions`)',
      )
    : least;
}

/** The division of the drum on the line, or how far it was turned between its two readings; null where none is recorded. */
export function drumDivision(facts: Facts, readings: Readings): Answer | null {
  const final = readings.get('final circular reading');
  if (final === undefined)
    return readings.has('circular scale reading')
      ? circularReading(facts, readings, 'circular scale reading')
      : null;
  const after = circularReading(facts, readings, 'final circular reading');
  const before = readings.has('initial circular reading')
    ? circularReading(facts, readings, 'initial circular reading')
    : computed(Q.plain(R.ZERO));
  const way = readings.get('turned');
  if (!after.ok) return after;
  if (!before.ok) return before;
  if (way?.kind !== 'direction') {
    return missing(
      'nothing in this block says which way the disc was turned: record it (`turned: toward higher numbers` or `turned: toward lower numbers`)',
    );
  }
  const moved = S.subtract(after.quantity.scalar, before.quantity.scalar);
  return computed(Q.plain(way.toward === 'higher' ? moved : S.negate(moved)));
}

/** Where the drum stands, in its own divisions: as recorded, and halfway where it was seen between two of them. */
export function circularReading(facts: Facts, readings: Readings, term: ObservableTerm): Answer {
  const reading = readings.get(term);
  const value = (observed: Extract<Observation, { readonly kind: 'at' }>['value']): Answer =>
    evaluateIn(facts, observed.kind === 'count' ? observed.count.expression : observed.stated.expression);
  if (reading?.kind === 'at') return value(reading.value);
  if (reading?.kind !== 'between') return REPORTED;
  const low = value(reading.low);
  const high = value(reading.high);
  if (!low.ok) return low;
  if (!high.ok) return high;
  const middle = S.divide(S.add(low.quantity.scalar, high.quantity.scalar), S.real(R.TWO));
  return middle === null ? REPORTED : computed(Q.plain(middle));
}
