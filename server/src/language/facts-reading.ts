import * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import { findPosition, nearestSolution, type ScaleSays } from '../engine/reading.ts';
import * as S from '../engine/scalar.ts';
import type { Unit } from '../engine/unit.ts';
import { type Answer, computed, lacking, missing, REPORTED } from './answer.ts';
import { bareReading, coarseWindow } from './coarse-window.ts';
import { evaluateIn } from './evaluate-in.ts';
import type { Facts } from './facts.ts';
import { division, fineCount, ratio, wholeOffset } from './facts-divisions.ts';
import { markPosition, readingsOf } from './facts-position.ts';
import { circularReading, drumDivision, fineScales } from './fine-scales.ts';
import { byMainMark } from './main-mark-reading.ts';
import type { Observation, Readings, RowNumber } from './measurement.ts';
import { inUnitText, onCircle } from './shown-position.ts';
import type { Span } from './syntax.ts';
import type { ObservableTerm } from './term-names.ts';
import { congruenceOf, namesMissingLine } from './vernier-lines.ts';

/**
 * What the scales show, worked out from the coarse mark and the fine scales together.
 *
 * In base units, exact. Without any observation of its own it is missing; observations that cannot occur together are
 * impossible; where more than one position fits, the reading is ambiguous.
 */
export function scaleReading(facts: Facts, row: RowNumber): Answer {
  const readings = readingsOf(facts, row);
  const scales = facts.scales();
  if (scales.formTroubles.length > 0) return REPORTED;
  if (namesMissingLine(facts, readings)) {
    return lacking({
      kind: 'impossible',
      message: cannotOccur(readings, facts),
      span: observationSpan(readings),
    });
  }
  if (readings.has('coinciding main mark')) return byMainMark(facts, readings);
  if (usesLeastCountOnly(facts, readings)) return byLeastCount(facts, readings);
  const coarse = coarseWindow(facts, readings);
  if (!coarse.ok) return coarse.answer;
  if (coarse.letters !== null) return letteredReading(facts, readings, coarse.letters);
  if (!scales.hasCircular && !scales.hasVernier) return bareReading(facts, coarse);
  const says: ScaleSays[] = [coarse.says, ...turnsBesideMark(facts, readings)];
  const fine = fineScales(facts, readings, says);
  if (fine !== null) return fine;
  const between = readings.get('coinciding division');
  if (between?.kind === 'between') return midpoint(facts, between, says, coarse.unit);
  return solved(facts, readings, says, coarse.unit);
}

/** Whole turns recorded beside a mark of the linear scale: both are true of the place, so that one may settle the other. */
function turnsBesideMark(facts: Facts, readings: Readings): readonly ScaleSays[] {
  const turns = readings.get('full rotations');
  const hasMark = readings.has('linear scale reading') || readings.has('main scale reading');
  // From one reading of a disc to another the turns are not counted from nought.
  if (!hasMark || turns?.kind !== 'at' || readings.has('final circular reading')) return [];
  if (turns.value.kind !== 'count') return [];
  const count = evaluateIn(facts, turns.value.count.expression);
  const number = count.ok ? S.realValue(count.quantity.scalar) : null;
  const turn = S.realValue(division(facts, 'rotation') ?? S.TOO_LARGE);
  return number === null || turn === null
    ? []
    : [{ kind: 'window', from: R.multiply(number, turn), width: turn }];
}

function solved(facts: Facts, readings: Readings, says: readonly ScaleSays[], unit: Unit | null): Answer {
  const dimension = facts.scales().dimension;
  const found = findPosition(says);
  if (dimension === null) return REPORTED;
  const shown = (at: R.Rational): Q.Quantity => ({ scalar: S.real(at), dimension, unit });
  const at = observationSpan(readings);
  switch (found.kind) {
    case 'one':
      return computed(onCircle(facts, shown(found.at), R.sign(found.at) < 0));
    case 'none':
      return lacking({ kind: 'impossible', message: cannotOccur(readings, facts), span: at });
    case 'several':
      return lacking({
        kind: 'ambiguous',
        message: `more than one reading fits: ${found.at
          .slice(0, 4)
          .map(value => inUnitText(shown(value), unit))
          .join(' or ')}; ${whySeveral(facts)}`,
        span: at,
        candidates: found.at.map(shown),
      });
    case 'too-many':
      return lacking({
        kind: 'limit',
        message:
          'the screw turns more than a thousand times within one linear division, which no instrument does',
      });
  }
}

function cannotOccur(readings: Readings, facts: Facts): string {
  const mark = readings.get('linear scale reading') ?? readings.get('main scale reading');
  const line = readings.get('circular scale reading') ?? readings.get('coinciding division');
  const { hasCircular } = facts.scales();
  const reach =
    readings.has('full rotations') && mark !== undefined
      ? 'the whole turns end at another place than the mark of the linear scale'
      : hasCircular
        ? 'between this mark of the linear scale and the next the circular scale does not pass that division'
        : 'no position fits both';
  return mark === undefined || line === undefined
    ? 'these observations cannot occur together'
    : `these observations cannot occur together: ${reach}`;
}

/** Where the finest of what was seen is recorded: there it is told that the readings do not fit together. */
export function observationSpan(readings: Readings): Span | null {
  const order: readonly ObservableTerm[] = [
    'circular scale reading',
    'final circular reading',
    'coinciding division',
    'linear scale reading',
    'main scale reading',
    'full rotations',
  ];
  for (const term of order) {
    const reading = readings.get(term);
    if (reading !== undefined) return reading.valueSpan;
  }
  return null;
}

/** Two lines share the coincidence: the position halfway between what each of them says. */
function midpoint(
  facts: Facts,
  line: Extract<Observation, { readonly kind: 'between' }>,
  says: readonly ScaleSays[],
  unit: Unit | null,
): Answer {
  if (line.low.kind !== 'count' || line.high.kind !== 'count') return REPORTED;
  const low = evaluateIn(facts, line.low.count.expression);
  const high = evaluateIn(facts, line.high.count.expression);
  if (!low.ok) return low;
  if (!high.ok) return high;
  const first = congruenceOf(facts, low.quantity.scalar);
  const second = congruenceOf(facts, high.quantity.scalar);
  if (first === null || second === null)
    return facts.value({ kind: 'division', division: 'vernier scale division', block: null });
  const found = solved(facts, new Map(), [...says, { kind: 'congruence', ...first }], unit);
  if (!found.ok) return found;
  const at = S.realValue(found.quantity.scalar)!;
  const other = nearestSolution(at, second.residue, second.modulus);
  const middle = R.multiply(R.add(at, other), R.HALF);
  // Where the lines step down the pair that lies past the mark is meant, not the one before it.
  const coarse = says.find(scale => scale.kind === 'window');
  const below = coarse !== undefined && R.compare(middle, coarse.from) < 0;
  const beyond = coarse !== undefined && R.compare(middle, R.add(coarse.from, coarse.width)) >= 0;
  const shift = below ? first.modulus : beyond ? R.negate(first.modulus) : R.ZERO;
  return computed({ ...found.quantity, scalar: S.real(R.add(middle, shift)) });
}

/** What else must be looked at where several positions look alike. */
function whySeveral(facts: Facts): string {
  if (!facts.scales().hasCircular)
    return 'the vernier comes into line like this more than once within one division of its scale';
  const turns = ratio(facts, 'linear', 'rotation');
  const count = turns === null ? null : S.realValue(turns);
  if (count !== null && R.equals(count, R.TWO))
    return 'the linear scale shows only every second turn, so a mark between its marks must be looked for (the missed half division)';
  return count !== null && R.isInteger(count)
    ? `the screw turns ${R.toFractionText(count)} times between two marks of the linear scale, so the whole turns must be counted`
    : 'the screw turns more than once between two marks of the linear scale, so the whole turns must be counted';
}

/** Where only the least count is known, or a wrong one is followed up, the reading is MSR + n × LC. */
function usesLeastCountOnly(facts: Facts, readings: Readings): boolean {
  const wrongCount = facts.override({ kind: 'term', term: 'least count', row: null, block: null }) !== null;
  if (wrongCount) return true;
  const { hasVernier, hasCircular } = facts.scales();
  if (hasCircular && !hasVernier)
    return (
      facts.measurement.givens.has('least count') &&
      division(facts, 'linear') === null &&
      division(facts, 'rotation') === null
    );
  if (hasCircular || !hasVernier || !readings.has('coinciding division')) return false;
  return (
    (division(facts, 'vernier') === null &&
      ratio(facts, 'vernier', 'main') === null &&
      facts.measurement.givens.has('least count')) ||
    (division(facts, 'main') === null && facts.measurement.givens.has('least count'))
  );
}

function byLeastCount(facts: Facts, readings: Readings): Answer {
  const { hasCircular } = facts.scales();
  const mark = readings.get('linear scale reading') ?? readings.get('main scale reading');
  const drum = drumDivision(facts, readings);
  const count: Answer | null = hasCircular
    ? drum
    : readings.has('coinciding division')
      ? circularReading(facts, readings, 'coinciding division')
      : null;
  const least = facts.term('least count');
  if (mark === undefined || mark.kind === 'direction') {
    const coarse = coarseWindow(facts, readings);
    if (!coarse.ok) return coarse.answer;
    return count === null || !count.ok || !least.ok
      ? (count ?? REPORTED)
      : computed({
          ...least.quantity,
          scalar: S.add(S.real(coarse.says.from), S.multiply(count.quantity.scalar, least.quantity.scalar)),
        });
  }
  const at = markPosition(facts, mark.kind === 'at' ? mark.value : mark.low, hasCircular ? 'linear' : 'main');
  if (count === null)
    return missing(
      'nothing in this block determines the observed reading: record the coinciding division (`coinciding division: …`)',
    );
  if (!at.ok) return at;
  if (!count.ok) return count;
  if (!least.ok) return least;
  const share = Q.multiply(stepsOf(facts, count.quantity), least.quantity);
  const sum = share.ok ? Q.add(at.quantity, share.quantity) : share;
  return sum.ok
    ? computed(sum.quantity)
    : lacking({ kind: 'trouble', trouble: sum.trouble, span: mark.valueSpan });
}

/** How many least counts a line or a division stands for: N - n where each line of the vernier counts one less than the one before. */
function stepsOf(facts: Facts, line: Q.Quantity): Q.Quantity {
  const { hasCircular, vernierLines } = facts.scales();
  const share = hasCircular ? null : ratio(facts, 'vernier', 'main');
  const known = share === null || vernierLines === null ? null : wholeOffset(share, vernierLines);
  if (known === null || vernierLines === null || isForward(facts, known.offset, line.scalar)) return line;
  return { ...line, scalar: S.subtract(vernierLines, line.scalar) };
}

/** Whether line n stands for n least counts: its division is the shorter one, or the numbers run backward. */
function isForward({ measurement }: Facts, offset: 1 | -1, line: S.Scalar): boolean {
  return (offset === -1) !== measurement.runsBackward || S.isZero(line);
}

/** Letters for numbers: the mark plus n least counts where the lettered vernier or screw allows it. */
function letteredReading(facts: Facts, readings: Readings, mark: Q.Quantity): Answer {
  const { hasCircular, vernierBase, vernierLines, hasVernier } = facts.scales();
  let scalar = mark.scalar;
  if (hasCircular) {
    const drum = drumDivision(facts, readings);
    const step = division(facts, 'circular');
    if (drum === null || step === null) return fineCount(facts);
    if (!drum.ok) return drum;
    scalar = S.add(scalar, S.multiply(drum.quantity.scalar, step));
  }
  if (hasVernier && readings.has('coinciding division')) {
    const line = circularReading(facts, readings, 'coinciding division');
    const base = division(facts, vernierBase);
    const share = ratio(facts, 'vernier', vernierBase);
    if (!line.ok) return line;
    if (base === null || share === null || vernierLines === null) return facts.term('least count');
    const known = wholeOffset(share, vernierLines);
    if (known === null)
      return missing('these letters do not say which line stands for which step: give the scales in numbers');
    const steps = S.divide(S.multiply(line.quantity.scalar, base), vernierLines);
    if (steps === null) return REPORTED;
    const forward = isForward(facts, known.offset, line.quantity.scalar);
    scalar = S.add(scalar, forward ? steps : S.subtract(base, steps));
  }
  return computed({ ...mark, scalar });
}
