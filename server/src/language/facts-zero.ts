import { isPlain } from '../engine/dimension.ts';
import { mean } from '../engine/evaluation.ts';
import * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import { findPosition, nearestSolution, type ScaleSays } from '../engine/reading.ts';
import * as S from '../engine/scalar.ts';
import { type Answer, computed, lacking, missing, REPORTED } from './answer.ts';
import { evaluateIn } from './evaluate-in.ts';
import type { Facts } from './facts.ts';
import { division, leastCount } from './facts-divisions.ts';
import { byWrongShare } from './facts-position.ts';
import { scaleReading } from './facts-reading.ts';
import type { Closed, ClosedPosition, RowNumber } from './measurement.ts';
import type { ComputedTerm } from './term-names.ts';
import { congruenceOf, lineCount } from './vernier-lines.ts';

/** A computed term as the question gives it; null where it does not. */
function given(facts: Facts, term: ComputedTerm): Answer | null {
  const record = facts.measurement.givens.get(term);
  if (record === undefined) return null;
  const answer = evaluateIn(facts, record.stated.expression);
  if (!answer.ok) return answer;
  return { ...answer, quantity: onScale(facts, answer.quantity), source: 'given', span: record.span };
}

/** Nought without a unit is nought on the block's scale: `zero error: nil`. */
function onScale(facts: Facts, value: Q.Quantity): Q.Quantity {
  const { dimension, unit } = facts.scales();
  return dimension === null || !isPlain(value.dimension) || !S.isZero(value.scalar)
    ? value
    : { ...value, dimension, unit };
}

function minus(left: Answer, right: Answer): Answer {
  if (!left.ok) return left;
  if (!right.ok) return right;
  const difference = Q.subtract(left.quantity, withDimensionOf(right.quantity, left.quantity));
  return difference.ok
    ? computed(difference.quantity)
    : lacking({ kind: 'trouble', trouble: difference.trouble, span: right.span });
}

/** Nought is nought in every unit. */
function withDimensionOf(value: Q.Quantity, like: Q.Quantity): Q.Quantity {
  return S.isZero(value.scalar) ? { ...value, dimension: like.dimension, unit: like.unit } : value;
}

/**
 * The zero error: what the closed instrument reads; positive when it reads too much.
 *
 * From the closed position (several: their mean), else as given, else the negative of a given correction, else what
 * a given observed and corrected reading differ by.
 */
export function zeroError(facts: Facts): Answer {
  const wrongCorrection = facts.override({ kind: 'term', term: 'zero correction', row: null, block: null });
  if (wrongCorrection !== null) return computed(Q.negate(wrongCorrection));
  const { closed } = facts.measurement;
  if (closed.length > 0) {
    const values: Q.Quantity[] = [];
    for (const check of closed) {
      const value = underWrongCount(facts, check, closedValue(facts, check));
      if (!value.ok) return value;
      values.push(value.quantity);
    }
    const middle = mean(values);
    return middle.ok ? computed(middle.quantity) : REPORTED;
  }
  const direct = given(facts, 'zero error');
  if (direct !== null) return direct;
  const correction = given(facts, 'zero correction');
  if (correction !== null) return correction.ok ? computed(Q.negate(correction.quantity)) : correction;
  const corrected = given(facts, 'corrected reading');
  if (corrected !== null) {
    const observed = scaleReading(facts, null);
    const known = observed.ok ? observed : given(facts, 'observed reading');
    if (known?.ok) return minus(known, corrected);
  }
  return missing(
    'nothing in this block determines the zero error: record how the closed instrument stands (`closed: zeros coincide`, `closed: vernier zero right, division …`) or the zero error (`zero error: …`)',
  );
}

/** Where a wrong least count is followed up, a closed position stands for as many of it as of the right one. */
function underWrongCount(facts: Facts, { position }: Closed, value: Answer): Answer {
  const wrong = facts.override({ kind: 'term', term: 'least count', row: null, block: null });
  const right = wrong === null || position.kind !== 'division' ? null : leastCount(facts);
  if (!value.ok || wrong === null || !right?.ok) return value;
  // With a vernier on the drum both have their own step.
  if (position.kind === 'division' && position.vernierDivision !== null) return value;
  const count = S.divide(value.quantity.scalar, right.quantity.scalar);
  return count === null ? value : computed({ ...value.quantity, scalar: S.multiply(count, wrong.scalar) });
}

/** What is added to every reading: the negative of the zero error. */
export function zeroCorrection(facts: Facts): Answer {
  const error = zeroError(facts);
  const override = facts.override({ kind: 'term', term: 'zero error', row: null, block: null });
  if (override !== null) return computed(Q.negate(override));
  if (error.ok) return computed(Q.negate(error.quantity));
  return given(facts, 'zero correction') ?? error;
}

/** What the scales show; as given where they are not read; else the corrected reading with the zero error put back. */
export function observedReading(facts: Facts, row: RowNumber): Answer {
  const read = byWrongShare(facts, row) ?? scaleReading(facts, row);
  if (read.ok || read.lack.kind !== 'missing' || row !== null) return read;
  const direct = given(facts, 'observed reading');
  if (direct !== null) return direct;
  const corrected = given(facts, 'corrected reading');
  if (corrected === null) return facts.measurement.rows.length > 0 ? whichRow(facts) : read;
  const error =
    facts.measurement.closed.length > 0 ||
    facts.measurement.givens.has('zero error') ||
    facts.measurement.givens.has('zero correction')
      ? facts.term('zero error')
      : null;
  return error === null ? read : minus(corrected, facts.term('zero correction'));
}

/** A table has as many readings as rows, and no single one. */
function whichRow({ measurement }: Facts): Answer {
  const { name, rows } = measurement;
  const label = rows[0]?.label ?? 'row 1';
  const of = name === null ? '' : ` of ${name}`;
  return missing(
    `${name ?? 'this block'} has a table of readings: say which row is meant (\`observed reading of ${label}${of}\`), or take their mean (\`mean observed reading${of}\`)`,
  );
}

/** The reading with the zero error taken off: observed reading - zero error. */
export function correctedReading(facts: Facts, row: RowNumber): Answer {
  const observed = facts.term('observed reading', row);
  const error = facts.term('zero error');
  if (observed.ok && error.ok) return minus(observed, error);
  const direct = row === null ? given(facts, 'corrected reading') : null;
  if (direct !== null) return direct;
  return observed.ok ? error : observed;
}

/** The position of the closed instrument, as a signed length or angle within one main division (a screw: one pitch) of zero. */
export function closedValue(facts: Facts, closed: Closed): Answer {
  const { position } = closed;
  const shown = (scalar: S.Scalar): Answer => {
    const { dimension, unit } = facts.scales();
    if (dimension === null) return facts.term('least count');
    return computed({ scalar, dimension, unit });
  };
  switch (position.kind) {
    case 'zeros-coincide':
      return facts.scales().dimension === null ? givenZero(facts) : shown(S.NOUGHT);
    case 'offset':
      return offsetValue(facts, position, shown);
    case 'division':
      return divisionPosition(facts, position, closed, shown);
  }
}

/** Nought in the unit of what is measured, where the scales are not recorded. */
function givenZero(facts: Facts): Answer {
  const reading =
    given(facts, 'observed reading') ?? given(facts, 'corrected reading') ?? given(facts, 'least count');
  if (reading?.ok) return computed({ ...reading.quantity, scalar: S.NOUGHT });
  return computed(Q.plain(R.ZERO));
}

function offsetValue(
  facts: Facts,
  position: Extract<ClosedPosition, { readonly kind: 'offset' }>,
  shown: (scalar: S.Scalar) => Answer,
): Answer {
  const sign = (answer: Answer): Answer =>
    answer.ok && position.side === 'negative' ? { ...answer, quantity: Q.negate(answer.quantity) } : answer;
  if (position.angle !== null) return sign(evaluateIn(facts, position.angle.expression));
  if (position.divisions === null) return REPORTED;
  const count = evaluateIn(facts, position.divisions.expression);
  if (!count.ok) return count;
  const { hasCircular } = facts.scales();
  const step = hasCircular ? division(facts, 'circular') : null;
  const least = facts.term('least count');
  if (step !== null) return sign(shown(S.multiply(count.quantity.scalar, step)));
  return least.ok ? sign(shown(S.multiply(count.quantity.scalar, least.quantity.scalar))) : least;
}

function divisionPosition(
  facts: Facts,
  position: Extract<ClosedPosition, { readonly kind: 'division' }>,
  closed: Closed,
  shown: (scalar: S.Scalar) => Answer,
): Answer {
  const { hasCircular, vernierBase } = facts.scales();
  const onScrew = hasCircular || position.scale !== 'vernier';
  const period = S.realValue(division(facts, onScrew ? 'rotation' : 'main') ?? S.TOO_LARGE);
  if (period === null)
    return (
      byCountAlone(facts, position) ??
      (onScrew
        ? facts.term('pitch')
        : facts.value({ kind: 'division', division: 'main scale division', block: null }))
    );
  const says: ScaleSays[] = [
    { kind: 'window', from: position.side === 'negative' ? R.negate(period) : R.ZERO, width: period },
  ];
  const main = position.division === null ? null : evaluateIn(facts, position.division.expression);
  if (main !== null && !main.ok) return main;
  const next = position.nextDivision === null ? null : evaluateIn(facts, position.nextDivision.expression);
  if (next !== null && !next.ok) return next;
  const number = main === null ? null : S.realValue(main.quantity.scalar);
  const other = next === null ? number : S.realValue(next.quantity.scalar);
  const fine =
    position.vernierDivision === null ? null : evaluateIn(facts, position.vernierDivision.expression);
  if (fine !== null && !fine.ok) return fine;
  if (onScrew) {
    const step = S.realValue(division(facts, 'circular') ?? S.TOO_LARGE);
    if (step === null || number === null || other === null) return facts.term('least count');
    const at = R.multiply(halfway(number, other), step);
    if (fine === null) {
      says.push({ kind: 'congruence', residue: at, modulus: period });
    } else {
      says.push({ kind: 'round', from: at, width: step, period });
      const congruence = vernierBase === 'circular' ? congruenceOf(facts, fine.quantity.scalar) : null;
      if (congruence === null)
        return facts.value({ kind: 'division', division: 'vernier scale division', block: null });
      says.push({ kind: 'congruence', ...congruence });
    }
  } else {
    const lines = lineCount(facts);
    if (position.fromFarEnd && lines === null) return facts.term('least count');
    const congruences = [number, other].map(line =>
      line === null
        ? null
        : congruenceOf(facts, S.real(position.fromFarEnd ? R.subtract(R.rational(lines!), line) : line)),
    );
    const [congruence, following] = congruences;
    if (!congruence || !following)
      return (
        byCountAlone(facts, position) ??
        facts.value({ kind: 'division', division: 'vernier scale division', block: null })
      );
    const step = nearestSolution(congruence.residue, following.residue, following.modulus);
    says.push({ kind: 'congruence', ...congruence, residue: halfway(congruence.residue, step) });
  }
  return placed(says, position, closed, period, shown);
}

/** Between two neighbouring divisions the zero stands in the middle of what each of them says. */
function halfway(low: R.Rational, high: R.Rational): R.Rational {
  return R.multiply(R.add(low, high), R.HALF);
}

function placed(
  says: readonly ScaleSays[],
  position: Extract<ClosedPosition, { readonly kind: 'division' }>,
  closed: Closed,
  period: R.Rational,
  shown: (scalar: S.Scalar) => Answer,
): Answer {
  const found = findPosition(says);
  if (found.kind !== 'one') {
    return lacking({
      kind: 'impossible',
      message: 'the closed instrument cannot show these divisions together',
      span: closed.valueSpan,
    });
  }
  if (position.side !== 'nearest') return shown(S.real(found.at));
  // Barely visible: of the places that fit, the one nearest zero.
  return shown(S.real(nearestSolution(R.ZERO, found.at, period)));
}

/** Where only the least count is known: k × LC to the right, -(N - k) × LC to the left when N is recorded. */
function byCountAlone(
  facts: Facts,
  position: Extract<ClosedPosition, { readonly kind: 'division' }>,
): Answer | null {
  const least = facts.term('least count');
  const count = position.division === null ? null : evaluateIn(facts, position.division.expression);
  const lines = lineCount(facts);
  if (!least.ok || count === null || !count.ok || position.vernierDivision !== null) return null;
  if (position.nextDivision !== null) return null;
  const far = position.fromFarEnd;
  if (position.side === 'positive' && !far) return scaledLeast(least.quantity, count.quantity.scalar);
  if (position.side === 'negative' && far)
    return scaledLeast(least.quantity, S.negate(count.quantity.scalar));
  if (position.side === 'negative' && lines !== null)
    return scaledLeast(least.quantity, S.subtract(count.quantity.scalar, S.real(R.rational(lines))));
  return null;
}

function scaledLeast(least: Q.Quantity, count: S.Scalar): Answer {
  return computed({ ...least, scalar: S.multiply(least.scalar, count) });
}
