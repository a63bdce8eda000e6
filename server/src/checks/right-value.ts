import { isPlain } from '../engine/dimension.ts';
import * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import type { Halves } from '../engine/rounds-to.ts';
import * as S from '../engine/scalar.ts';
import { likelyBaseUnits, type Unit } from '../engine/unit.ts';
import type { Facts } from '../language/facts.ts';
import { totalError } from '../language/facts-error.ts';
import type { Subject } from '../language/measurement.ts';
import { shownValue } from '../render/shown-value.ts';
import { isExactTerm, isReading, owner } from './agreement.ts';
import { wantedPlaces } from './judge-places.ts';

/** A right value as it would be written down. */
export interface RightValue {
  /** `2.484 cm`, `24° 31′`, `w/(2k)`: a check of it finds nothing. */
  readonly text: string;
  readonly quantity: Q.Quantity;
  readonly unit: Unit | null;
  /** Whether the text is the value rounded, not the value itself. */
  readonly isRounded: boolean;
}

/**
 * The value of a subject as it would be written down: a reading with the places of its least count, what must be
 * exact with all of its places, an error with two figures, the rest with as many places as the data carry. Null where
 * the block does not determine it.
 *
 * `unit` is the one to write it in, by default the one that it comes out in; `sexagesimal` writes angles in degrees
 * and minutes; `guard` adds so many places to a value that has to be rounded, for those that are only worked on with.
 */
export function rightValue(
  facts: Facts,
  subject: Subject,
  unit: Unit | null = null,
  sexagesimal = false,
  guard = 0,
): RightValue | null {
  const value = facts.value(subject);
  if (!value.ok) return null;
  const quantity = asLength(value.quantity, unit);
  const shownIn = fittingUnit(quantity, unit);
  const { least, most } = placesFor(owner(facts, subject) ?? facts, subject, shownIn, quantity);
  const right = writtenWith(
    quantity,
    { least, most: most === null ? null : most + guard },
    {
      unit: shownIn,
      signed: isSigned(subject),
      sexagesimal,
      halves: facts.measurement.halves,
      tenfold: isWorkedOut(subject) && isFarFromOne(quantity, shownIn),
    },
  );
  return sexagesimal ? inMinutes(facts, subject, right) : right;
}

/** The decimal place that the data round a result to, in a unit; below nought for tens, hundreds …, null where nothing says so. */
export function roundingPlace(facts: Facts, subject: Subject, unit: Unit | null): number | null {
  const error = isScatterOrError(subject) ? null : totalError(facts, subject, 'data');
  return error?.ok ? resultPlace(asLength(error.quantity, unit), unit) : null;
}

/** A reading of whole degrees shows that its minutes were read: `3° 0′`. */
function inMinutes(facts: Facts, subject: Subject, right: RightValue): RightValue {
  const least = (owner(facts, subject) ?? facts).term('least count');
  const degrees = least.ok ? S.realValue(least.quantity.scalar) : null;
  const isFine = degrees !== null && R.compare(degrees, R.ONE) < 0;
  const isRead = isReading(subject) || (subject.kind === 'term' && subject.term.startsWith('mean '));
  return isFine && isRead && /^[-+]?\d+°$/.test(right.text)
    ? { ...right, text: `${right.text} 0′`, isRounded: false }
    : right;
}

/** An arc, radius times angle, is a length: its angle counts in radians, which are not written. */
function asLength(quantity: Q.Quantity, unit: Unit | null): Q.Quantity {
  const { dimension } = quantity;
  const isMixed = dimension.angle !== 0 && !isPlain(Q.angleFree(quantity).dimension);
  if (!isMixed || (unit !== null && Q.inUnit(quantity, unit) !== null)) return quantity;
  return Q.angleFree(quantity);
}

function isSigned(subject: Subject): boolean {
  return subject.kind === 'term' && (subject.term === 'zero error' || subject.term === 'zero correction');
}

interface Manner {
  readonly unit: Unit | null;
  readonly signed?: boolean;
  readonly sexagesimal?: boolean;
  readonly halves?: Halves;
  /** With a power of ten: `9.8 × 10^7`. */
  readonly tenfold?: boolean;
}

/** A value written with at least and at most so many decimal places, null for no bound; negative ones are tens, hundreds … */
export function writtenWith(
  value: Q.Quantity,
  { least, most }: Places,
  { unit: wanted, signed = false, sexagesimal = false, halves = 'either', tenfold = false }: Manner,
): RightValue {
  const quantity = asLength(value, wanted);
  const unit = fittingUnit(quantity, wanted);
  const text = shownValue(quantity, {
    unit,
    signed,
    sexagesimal,
    halves,
    tenfold,
    ...(least === null ? {} : { atLeast: most === null ? least : Math.min(least, most) }),
    ...(most === null ? {} : { atMost: most }),
  });
  const isExact = endsWithin(quantity, unit, most) || (sexagesimal && /[′″]/.test(text));
  return { text, quantity, unit, isRounded: !isExact };
}

export interface Places {
  readonly least: number | null;
  readonly most: number | null;
}

/** How many decimal places a value is written with, in a unit; null where nothing bounds them. */
function placesFor(facts: Facts, subject: Subject, unit: Unit | null, truth: Q.Quantity): Places {
  if (isScatterOrError(subject)) return { least: null, most: errorPlaces(truth, unit) };
  const wanted = wantedPlaces(facts, subject, unit, truth);
  if (!isWorkedOut(subject) && (wanted !== null || isReading(subject) || isExactTerm(subject)))
    return showsLeastCount(subject) && !S.isZero(truth.scalar)
      ? { least: wanted?.least ?? wanted?.most ?? null, most: wanted?.most ?? null }
      : (wanted ?? UNBOUND);
  const error = !isWorkedOut(subject) || wanted === null ? null : totalError(facts, subject, 'data');
  if (error?.ok) return placesOfResult(asLength(error.quantity, unit), unit, wanted ?? UNBOUND);
  return endsWithin(truth, unit, null) ? UNBOUND : { least: null, most: figures(truth, unit, USUAL) };
}

/** Whether a value is worked out from readings and records, so that any size is to be expected of it. */
export function isWorkedOut({ kind }: Subject): boolean {
  return kind === 'own' || kind === 'statistic';
}

/** Whether a value is so large or small in its unit that nobody counts its digits. */
export function isFarFromOne(quantity: Q.Quantity, unit: Unit | null): boolean {
  const real = Q.numberIn(quantity, unit);
  if (real === null || R.isZero(real)) return false;
  const exponent = R.decimalExponent(real);
  return exponent >= LARGE || exponent < -SMALL;
}

/** From a thousand million on, and below a ten thousandth. */
const LARGE = 9;
const SMALL = 4;

/** These need not, but are written with the places of the least count as the readings beside them are. */
function showsLeastCount(subject: Subject): boolean {
  return (
    subject.kind === 'term' &&
    (subject.term === 'vernier scale reading' ||
      subject.term === 'zero error' ||
      subject.term === 'zero correction')
  );
}

const UNBOUND: Places = { least: null, most: null };

/**
 * A result is rounded at the first figure of its error, one place further where that is a 1 or a 2. Common practice,
 * no source; and an exact one keeps its noughts as far as the data have them.
 */
function placesOfResult(error: Q.Quantity, unit: Unit | null, wanted: Places): Places {
  const first = figures(error, unit, 1);
  if (first === null) return wanted;
  const doubled = figures({ ...error, scalar: S.multiply(error.scalar, S.real(R.TWO)) }, unit, 1) ?? first;
  const last = resultPlace(error, unit) ?? first;
  // Whole numbers are written in full where all of their digits may be shown.
  const most = last < 0 && (wanted.most === null || wanted.most >= 0) ? 0 : last;
  return { least: Math.min(doubled, most), most: wanted.most === null ? most : Math.min(most, wanted.most) };
}

const SCATTERS = new Set(['mean absolute error', 'standard deviation']);
const ERRORS = new Set([
  ...SCATTERS,
  'absolute error',
  'relative error',
  'percentage error',
  'percentage difference',
  'standard uncertainty',
  'expanded uncertainty',
]);

function isScatterOrError(subject: Subject): boolean {
  return (
    (subject.kind === 'term' && SCATTERS.has(subject.term)) ||
    (subject.kind === 'statistic' && ERRORS.has(subject.statistic))
  );
}

function resultPlace(error: Q.Quantity, unit: Unit | null): number | null {
  const first = figures(error, unit, 1);
  return first !== null && leadingFigure(error, unit) < 3 ? first + 1 : first;
}

/** Two figures, a third where that makes it exact. Source: GUM (JCGM 100:2008) 7.2.6, at most two. */
function errorPlaces(truth: Q.Quantity, unit: Unit | null): number | null {
  const two = figures(truth, unit, 2);
  // A whole number of three figures is written in full.
  if (two === null || two === -1) return two === null ? null : 0;
  return !endsWithin(truth, unit, two) && endsWithin(truth, unit, two + 1) ? two + 1 : two;
}

/** Figures of a value that is inexact and for which the data say nothing. */
const USUAL = 4;

/** The decimal places that show so many figures of a value, in a unit; null for nought and for letters. */
function figures(value: Q.Quantity, unit: Unit | null, count: number): number | null {
  const real = Q.numberIn(value, unit);
  return real === null || R.isZero(real) ? null : count - 1 - R.decimalExponent(real);
}

function leadingFigure(value: Q.Quantity, unit: Unit | null): number {
  const real = R.abs(Q.numberIn(value, unit) ?? R.ONE);
  const scale = R.powerInteger(R.TEN, -R.decimalExponent(real)) ?? R.ONE;
  return R.toInteger(R.floor(R.multiply(real, scale))) ?? 1;
}

function fittingUnit(quantity: Q.Quantity, wanted: Unit | null): Unit | null {
  if (wanted !== null && Q.inUnit(quantity, wanted) !== null) return wanted;
  if (quantity.unit !== null) return quantity.unit;
  const plain = likelyBaseUnits(quantity.dimension);
  return plain.symbol === '' ? null : plain;
}

/** Whether a value has no more places than are written. */
function endsWithin(quantity: Q.Quantity, unit: Unit | null, places: number | null): boolean {
  const number = unit === null ? quantity.scalar : (Q.inUnit(quantity, unit) ?? quantity.scalar);
  const real = S.realValue(number);
  if (real === null) return true;
  if (!S.isExact(number)) return false;
  const last = places ?? MOST_PLACES;
  const inPlaces = R.multiply(real, R.powerInteger(R.TEN, last) ?? R.ONE);
  return R.isInteger(inPlaces);
}

/** A value without any limit is written with so many places at most. */
const MOST_PLACES = 6;
