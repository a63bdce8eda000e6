import * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import { type Answer, computed, lacking, missing } from './answer.ts';
import { evaluateIn } from './evaluate-in.ts';
import { type Facts, subjectText } from './facts.ts';
import { division, divisionAnswer } from './facts-divisions.ts';
import { DIVISION_TERM } from './facts-scales.ts';
import type { Observed, Readings, RowNumber } from './measurement.ts';
import type { ComputedTerm, ObservableTerm } from './term-names.ts';
import { congruenceOf, lineCount } from './vernier-lines.ts';

/** What a row records, and where it is silent what the block records beside its table. */
export function readingsOf(facts: Facts, row: RowNumber): Readings {
  const { readings, rows } = facts.measurement;
  const own = row === null ? undefined : rows[row - 1]?.readings;
  if (own === undefined) return readings;
  return readings.size === 0 ? own : new Map([...readings, ...own]);
}

/** The value of something observed: the mark, or the number of the division. */
export function positionValue(facts: Facts, term: ComputedTerm | ObservableTerm, row: RowNumber): Answer {
  if (term === 'vernier scale reading') return vernierScaleReading(facts, row);
  const observation = readingsOf(facts, row).get(term as ObservableTerm);
  if (observation !== undefined && observation.kind !== 'direction') {
    const value = observedValue(facts, observation.kind === 'at' ? observation.value : observation.low);
    if (!value.ok || observation.kind === 'at')
      return value.ok ? { ...value, source: 'observed', span: observation.span } : value;
    if (isMark(term)) return { ...value, source: 'observed', span: observation.span };
    const high = observedValue(facts, observation.high);
    const middle = high.ok ? halfway(value.quantity, high.quantity) : null;
    return middle === null
      ? value
      : { ok: true, quantity: middle, source: 'observed', span: observation.span };
  }
  return fromReading(facts, term as ObservableTerm, row);
}

function isMark(term: ComputedTerm | ObservableTerm): boolean {
  return term === 'main scale reading' || term === 'linear scale reading' || term === 'full rotations';
}

function halfway(low: Q.Quantity, high: Q.Quantity): Q.Quantity | null {
  const sum = Q.add(low, high);
  const half = sum.ok ? Q.divide(sum.quantity, Q.plain(R.TWO)) : sum;
  return half.ok ? half.quantity : null;
}

/** A length as recorded, or a count of divisions made a length where its scale is known. */
function observedValue(facts: Facts, observed: Observed): Answer {
  if (observed.kind === 'length') return evaluateIn(facts, observed.stated.expression);
  const count = evaluateIn(facts, observed.count.expression);
  if (!count.ok || observed.division === null) return count;
  const one = divisionAnswer(facts, observed.division);
  if (!one.ok) return one;
  const value = Q.multiply(count.quantity, one.quantity);
  return value.ok
    ? computed(value.quantity)
    : lacking({ kind: 'trouble', trouble: value.trouble, span: observed.count.span });
}

/** A mark given by its bare count of divisions of its own scale: `linear scale reading: 4 divisions`. */
export function markPosition(facts: Facts, observed: Observed, own: 'main' | 'linear'): Answer {
  if (observed.kind === 'count' && observed.division === null) {
    return observedValue(facts, { ...observed, division: DIVISION_TERM[own] });
  }
  return observedValue(facts, observed);
}

/** What the vernier adds: the observed reading less the mark before its zero. */
function vernierScaleReading(facts: Facts, row: RowNumber): Answer {
  const { vernierBase, hasVernier, hasCircular } = facts.scales();
  if (!hasVernier && !hasCircular)
    return missing(
      'nothing in this block determines the vernier scale reading: record the vernier scale (`vernier scale: … VSD = … MSD`)',
    );
  const observed = facts.term('observed reading', row);
  if (!observed.ok) {
    // Without a mark the vernier's share is still known.
    const line = facts.term('coinciding division', row);
    const least = facts.term('least count');
    if (line.ok && least.ok && observed.lack.kind === 'missing') {
      const congruence = congruenceOf(facts, line.quantity.scalar);
      if (congruence !== null)
        return computed({
          ...least.quantity,
          scalar: S.real(R.modulo(congruence.residue, congruence.modulus)),
        });
    }
    return observed;
  }
  const coarse = facts.term(vernierBase === 'main' ? 'main scale reading' : 'linear scale reading', row);
  if (!coarse.ok) return coarse;
  const share = Q.subtract(observed.quantity, coarse.quantity);
  if (!share.ok) return lacking({ kind: 'trouble', trouble: share.trouble, span: null });
  if (vernierBase !== 'circular') return computed(share.quantity);
  // On a screw the vernier adds to the division of the drum that was just passed.
  const drum = facts.term('circular scale reading', row);
  const one = division(facts, 'circular');
  if (!drum.ok || one === null) return drum;
  const passed = S.multiply(S.real(R.floor(S.realValue(drum.quantity.scalar) ?? R.ZERO)), one);
  return computed({ ...share.quantity, scalar: S.subtract(share.quantity.scalar, passed) });
}

/** MSR + VSR where a wrong vernier scale reading is followed up; null where none is. */
export function byWrongShare(facts: Facts, row: RowNumber): Answer | null {
  const share = facts.override({ kind: 'term', term: 'vernier scale reading', row, block: null });
  if (share === null || facts.scales().vernierBase !== 'main') return null;
  if (!readingsOf(facts, row).has('main scale reading')) return null;
  const mark = facts.term('main scale reading', row);
  const sum = mark.ok ? Q.add(mark.quantity, share) : null;
  return sum?.ok ? computed(sum.quantity) : null;
}

/** The observables that a known reading makes: which mark, which line. Only where nothing was recorded. */
function fromReading(facts: Facts, term: ObservableTerm, row: RowNumber): Answer {
  const lack = missing(
    `nothing in this block determines ${subjectText({ kind: 'term', term, row: null, block: null })}: record it (\`${term}: …\`)`,
  );
  // The reading must be known from elsewhere than the scales themselves.
  const given =
    facts.measurement.givens.get('observed reading') ?? facts.measurement.givens.get('corrected reading');
  if (given === undefined || row !== null || readingsOf(facts, null).size > 0) return lack;
  const reading = facts.term('observed reading', null);
  if (!reading.ok) return lack;
  const position = S.realValue(reading.quantity.scalar);
  const { vernierBase, hasCircular } = facts.scales();
  if (position === null) return lack;
  if (term === 'main scale reading' || term === 'linear scale reading') {
    const step = S.realValue(division(facts, hasCircular ? 'linear' : 'main') ?? S.NOUGHT);
    if (step === null || R.isZero(step)) return lack;
    return computed({ ...reading.quantity, scalar: S.real(R.subtract(position, R.modulo(position, step))) });
  }
  if (term === 'circular scale reading') {
    const turn = S.realValue(division(facts, 'rotation') ?? S.NOUGHT);
    const step = S.realValue(division(facts, 'circular') ?? S.NOUGHT);
    if (turn === null || step === null || R.isZero(turn) || R.isZero(step)) return lack;
    const count = R.divide(R.modulo(position, turn), step)!;
    return computed(Q.plain(vernierBase === 'circular' ? R.floor(count) : count));
  }
  if (term === 'coinciding division') return lineInLine(facts, position) ?? lack;
  return lack;
}

/** The vernier's line that stands in line at a position: the first whose congruence holds. */
function lineInLine(facts: Facts, position: R.Rational): Answer | null {
  const lines = lineCount(facts);
  for (let line = 0; lines !== null && line < Math.min(lines, 2000); line++) {
    const congruence = congruenceOf(facts, S.real(R.rational(line)));
    if (congruence === null) return null;
    if (R.isZero(R.modulo(R.subtract(position, congruence.residue), congruence.modulus)))
      return computed(Q.plain(R.rational(line)));
  }
  return null;
}
