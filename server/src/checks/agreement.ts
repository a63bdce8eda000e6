import { isPlain, sameDimension } from '../engine/dimension.ts';
import * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import { type Halves, roundsTo } from '../engine/rounds-to.ts';
import * as S from '../engine/scalar.ts';
import type { Unit } from '../engine/unit.ts';
import type { Facts } from '../language/facts.ts';
import type { Subject } from '../language/measurement.ts';
import { isFullCircle } from '../language/shown-position.ts';
import { smallestPart } from './smallest-part.ts';

/** How a value is stated: its number, and one in its last place (null for a fraction or a formula, which is exact). */
export interface StatedValue {
  readonly quantity: Q.Quantity;
  readonly place: R.Rational | null;
}

/** Decimal places up to which a reading must be equal to its exact value, not only near. */
export const EXACT_PLACES = 4;

/** The right value in the kind of what is stated: an arc length without its radians, a ratio as an angle, nought in any unit; null for another kind. */
export function comparable(
  truth: Q.Quantity,
  stated: Q.Quantity,
): { readonly truth: Q.Quantity; readonly stated: Q.Quantity } | null {
  if (sameDimension(truth.dimension, stated.dimension)) return { truth, stated };
  const angle =
    stated.dimension.angle === 1 && isPlain(Q.angleFree(stated).dimension) ? Q.asAngle(truth) : null;
  if (angle !== null) return { truth: angle, stated };
  const plainTruth = Q.angleFree(truth);
  const plainStated = Q.angleFree(stated);
  if (sameDimension(plainTruth.dimension, plainStated.dimension))
    return { truth: plainTruth, stated: plainStated };
  if (isPlain(stated.dimension) && S.isZero(stated.scalar))
    return { truth, stated: { ...stated, dimension: truth.dimension } };
  if (isPlain(truth.dimension) && S.isZero(truth.scalar))
    return { truth: { ...truth, dimension: stated.dimension }, stated };
  return null;
}

/**
 * Whether a stated value is the right one: equal, or the right one rounded to the stated places.
 *
 * Halves may go away from zero or to even, unless the settings allow one of these only. A reading of a divided scale is an exact multiple, so it must be equal
 * where its least count ends within four decimals of the unit used. On a full circle 360° make no difference.
 */
export function agrees(facts: Facts, subject: Subject, truth: Q.Quantity, value: StatedValue): boolean {
  const pair = comparable(truth, value.quantity);
  if (pair === null) return false;
  const right = S.realValue(pair.truth.scalar);
  const stated = S.realValue(pair.stated.scalar);
  if (right === null || stated === null) return S.equals(pair.truth.scalar, pair.stated.scalar);
  if (S.equals(pair.truth.scalar, pair.stated.scalar)) return true;
  // Nought has no significant figure, so that it rounds no error.
  if (R.isZero(stated) && isError(subject)) return false;
  if (
    onFullCircle(facts, subject, pair.truth) &&
    R.isZero(R.modulo(R.subtract(right, stated), R.rational(360)))
  )
    return true;
  if (value.place === null || !mayBeNear(facts, subject, pair.truth, value)) return false;
  return roundsAsWritten(pair.truth, pair.stated, placeIn(pair.stated, value), facts.measurement.halves);
}

/** One in the last place of a value in the kind that it is compared in: 3.14 rad/s as 3.14 s^-1 has 0.01 s^-1. */
function placeIn(compared: Q.Quantity, { quantity, place }: StatedValue): R.Rational {
  const [as, written] = [S.realValue(compared.scalar), S.realValue(quantity.scalar)];
  const times = as === null || written === null || R.equals(as, written) ? null : R.divide(as, written);
  return times === null ? place! : R.rationalRoundFigures(R.multiply(place!, times), WRITTEN_FIGURES);
}

/** Rounding is a matter of the unit that the value is written in; with π in the unit its number is taken as written. */
function roundsAsWritten(truth: Q.Quantity, stated: Q.Quantity, place: R.Rational, halves: Halves): boolean {
  const { unit } = stated;
  if ((unit === null || unit.exact) && S.isExact(stated.scalar))
    return roundsTo(S.realValue(truth.scalar)!, S.realValue(stated.scalar)!, place, halves);
  const right = Q.numberIn(truth, unit);
  const written = Q.numberIn(stated, unit);
  const step = R.divide(place, unit?.factor ?? R.ONE);
  if (right === null || written === null || step === null) return false;
  const [number, last] = [written, step].map(each => R.rationalRoundFigures(each, WRITTEN_FIGURES));
  return roundsTo(right, number!, last!, halves);
}

/** More figures than anybody writes, fewer than π is carried to. */
const WRITTEN_FIGURES = 40;

function onFullCircle(facts: Facts, subject: Subject, truth: Q.Quantity): boolean {
  if (subject.kind !== 'term' || truth.dimension.angle !== 1) return false;
  return isFullCircle(facts);
}

const SPREADS: ReadonlySet<string> = new Set([
  'mean absolute error',
  'standard deviation',
  'absolute error',
  'relative error',
  'percentage error',
  'standard uncertainty',
  'expanded uncertainty',
]);

/** Whether values of a subject say how far off another value may be. */
export function isError(subject: Subject): boolean {
  if (subject.kind === 'statistic') return SPREADS.has(subject.statistic);
  return subject.kind === 'term' && SPREADS.has(subject.term);
}

const READINGS = new Set([
  'observed reading',
  'corrected reading',
  'vernier scale reading',
  'zero error',
  'zero correction',
  'main scale reading',
  'linear scale reading',
]);

/** Whether values of a subject are exact: divisions, the pitch, the least count. */
export function isExactTerm(subject: Subject): boolean {
  return (
    subject.kind === 'division' ||
    (subject.kind === 'term' && (subject.term === 'least count' || subject.term === 'pitch'))
  );
}

/** Whether a subject is read off divided scales, so that its values are multiples of the least count. */
export function isReading(subject: Subject): boolean {
  return subject.kind === 'term' && READINGS.has(subject.term);
}

/**
 * Whether a value of a kind may be near the right one and not equal: not where it is an exact multiple that ends in the
 * unit of its last part, and never so far off that another step of the scale is nearer, or that nothing of it is left.
 */
export function mayBeNear(facts: Facts, subject: Subject, truth: Q.Quantity, value: StatedValue): boolean {
  if (mustBeEqual(facts, subject, truth, smallestPart(value))) return false;
  if (isExactTerm(subject)) return value.place === null || isWithin(S.real(value.place), truth.scalar);
  if (!isReading(subject)) return true;
  const least = owner(facts, subject)?.term('least count');
  if (least === undefined || !least.ok) return true;
  const off = S.subtract(comparable(truth, value.quantity)?.stated.scalar ?? truth.scalar, truth.scalar);
  const twice = S.abs(S.multiply(off, S.real(R.TWO)));
  return twice === null || (S.compare(twice, least.quantity.scalar) ?? -1) === -1;
}

function isWithin(place: S.Scalar, value: S.Scalar): boolean {
  const size = S.abs(value);
  return size === null || S.compare(place, size) !== 1;
}

function mustBeEqual(facts: Facts, subject: Subject, truth: Q.Quantity, unit: Unit | null): boolean {
  const exactly = (value: Q.Quantity): boolean => {
    const number = unit === null ? value.scalar : Q.inUnit(value, unit);
    const real = number === null ? null : S.realValue(number);
    const places = real === null ? null : R.terminatingPlaces(real);
    return places !== null && places <= EXACT_PLACES;
  };
  if (isExactTerm(subject)) return exactly(truth);
  if (!isReading(subject)) return false;
  const least = owner(facts, subject)?.term('least count');
  if (least === undefined || !least.ok || !exactly(least.quantity)) return false;
  // The mean of several zero checks may lie between the steps; half a step is still read exactly.
  const steps = S.divide(truth.scalar, least.quantity.scalar);
  const halves = steps === null ? null : S.realValue(S.multiply(steps, S.real(R.TWO)));
  return halves !== null && R.isInteger(halves);
}

/** The block that a subject belongs to. */
export function owner(facts: Facts, subject: Subject): Facts | null {
  if (subject.kind === 'statistic') return owner(facts, subject.of);
  if (subject.kind === 'unknown' || subject.block === null) return facts;
  return facts.note.named(subject.block);
}

/** A link that only repeats an earlier wrong one's value, as written or rounded, is not judged again. */
export function repeats(wrong: StatedValue, value: StatedValue): boolean {
  const pair = comparable(wrong.quantity, value.quantity);
  if (pair === null) return false;
  if (S.equals(pair.truth.scalar, pair.stated.scalar)) return true;
  const right = S.realValue(pair.truth.scalar);
  const stated = S.realValue(pair.stated.scalar);
  if (right === null || stated === null || value.place === null) return false;
  return (
    S.compare(
      S.abs(S.subtract(pair.truth.scalar, pair.stated.scalar))!,
      S.real(R.multiply(value.place, R.HALF)),
    ) !== 1
  );
}
