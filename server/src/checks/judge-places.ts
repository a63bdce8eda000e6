import * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import type { Unit } from '../engine/unit.ts';
import type { Facts } from '../language/facts.ts';
import { totalError } from '../language/facts-error.ts';
import type { Claim, Link, Stated, Subject } from '../language/measurement.ts';
import type { Span } from '../language/syntax.ts';
import { shownValue } from '../render/shown-value.ts';
import { EXACT_PLACES, isReading, owner, type StatedValue } from './agreement.ts';
import type { Judging } from './judge.ts';
import { placeOf } from './link-value.ts';
import { isInParts } from './smallest-part.ts';
import { isTenfold } from './typed-number.ts';

/** Judges how many places a right last link has: too few only for readings, too many for all. */
export function judgePlaces(
  judging: Judging,
  facts: Facts,
  at: { readonly block: number; readonly claim: Claim; readonly link: Link; readonly span: Span },
  stated: Stated,
  value: StatedValue,
  truth: Q.Quantity,
): void {
  const { unit } = value.quantity;
  const { place } = value;
  if (place === null) return;
  if (isInParts(value)) judgeParts(judging, facts, at, value, truth);
  if (isInParts(value) || /[′″]|\bmin\b|\bsec\b/.test(stated.text)) return;
  const one = unit === null ? R.ONE : unit.factor;
  const wanted = wantedPlaces(facts, at.claim.subject, unit, truth);
  if (wanted === null) return;
  const placesOf = (places: number): R.Rational => R.multiply(R.powerInteger(R.TEN, -places)!, one);
  if (wanted.least !== null && R.compare(place, placesOf(wanted.least)) > 0) {
    push(judging, at, stated, value, truth, 'few', wanted.least, wanted.least);
  } else if (
    wanted.most !== null &&
    R.compare(place, placesOf(wanted.most)) < 0 &&
    !endsWithError(at.claim.subject, stated, place) &&
    !isFilledUp(stated, value, wanted.most)
  ) {
    push(judging, at, stated, value, truth, 'many', wanted.most, wanted.least ?? wanted.most);
  }
}

/** A reading may end where its error does: 3.140 mm ± 0.005 mm. */
function endsWithError(subject: Subject, { error }: Stated, place: R.Rational): boolean {
  const last = error === null || !isReading(subject) ? null : placeOf(error);
  return last !== null && R.compare(place, last) >= 0;
}

/** A whole number that ends in noughts where its places are below nought shows no more than it may: 6000 Å to tens. */
function isFilledUp({ text }: Stated, { quantity, place }: StatedValue, places: number): boolean {
  const { unit } = quantity;
  if (places >= 0 || place === null || !R.equals(place, unit?.factor ?? R.ONE) || isTenfold(text))
    return false;
  const number = Q.numberIn(quantity, unit);
  return number !== null && R.isInteger(R.multiply(number, R.powerInteger(R.TEN, places)!));
}

/** An angle in parts is only said to have too few: where it rounds a mean more coarsely than the least count. */
function judgeParts(
  judging: Judging,
  facts: Facts,
  at: { readonly block: number; readonly claim: Claim; readonly link: Link; readonly span: Span },
  stated: StatedValue,
  truth: Q.Quantity,
): void {
  const { subject } = at.claim;
  const least = owner(facts, subject)?.term('least count');
  if (subject.kind !== 'term' || !MEANS.has(subject.term) || least === undefined || !least.ok) return;
  if (Q.equals(stated.quantity, truth) || stated.place === null) return;
  if (S.compare(S.real(stated.place), least.quantity.scalar) !== 1) return;
  const shown = shownValue(roundedToSeconds(truth), { sexagesimal: true });
  judging.verdicts.push({ ...at, kind: 'places', stated, truth, too: 'few', places: 0, shown });
}

const SECOND = R.rational(1, 3600);

function roundedToSeconds(truth: Q.Quantity): Q.Quantity {
  const value = S.realValue(truth.scalar);
  return value === null ? truth : { ...truth, scalar: S.real(R.roundTo(value, SECOND, 'half-even')) };
}

function push(
  judging: Judging,
  at: { readonly block: number; readonly claim: Claim; readonly link: Link; readonly span: Span },
  { text }: Stated,
  value: StatedValue,
  truth: Q.Quantity,
  too: 'few' | 'many',
  places: number,
  show: number,
): void {
  const signed =
    at.claim.subject.kind === 'term' &&
    (at.claim.subject.term === 'zero error' || at.claim.subject.term === 'zero correction');
  const shown = shownValue(truth, {
    unit: value.quantity.unit,
    atLeast: show,
    atMost: places,
    tenfold: isTenfold(text),
    halves: judging.facts.block(at.block).measurement.halves,
    signed,
  });
  // What is no larger than its error has no figure to lose.
  if (shown === text) return;
  judging.verdicts.push({ ...at, kind: 'places', stated: value, truth, too, places, shown });
}

export interface Wanted {
  readonly least: number | null;
  readonly most: number | null;
}

/** Readings must show how finely they were read; a zero error of 0 mm need not. */
const FINE = new Set<string>(['observed reading', 'corrected reading']);
const MEANS = new Set<string>(['mean observed reading', 'mean corrected reading']);
const ERRORS = new Set([
  'absolute error',
  'relative error',
  'percentage error',
  'standard uncertainty',
  'expanded uncertainty',
  'percentage difference',
]);
/** An error or uncertainty may have one to three figures. */
const MOST_ERROR_FIGURES = 3;

/** How many places a value of a subject must and may have in a unit; null where nobody asks. */
export function wantedPlaces(
  facts: Facts,
  subject: Subject,
  unit: Unit | null,
  truth: Q.Quantity,
): Wanted | null {
  if (subject.kind === 'division' || subject.kind === 'count' || subject.kind === 'unknown') return null;
  if (subject.kind === 'term') {
    if (isReading(subject) || MEANS.has(subject.term)) return readingPlaces(facts, subject, unit, truth);
    if (ERRORS.has(subject.term)) return { least: null, most: figurePlaces(truth, unit, MOST_ERROR_FIGURES) };
    return null;
  }
  if (subject.kind === 'statistic' && ERRORS.has(subject.statistic))
    return { least: null, most: figurePlaces(truth, unit, MOST_ERROR_FIGURES) };
  const error = totalError(facts, subject, 'data');
  if (!error.ok || S.isZero(error.quantity.scalar)) return null;
  return { least: null, most: figurePlaces(error.quantity, unit, 2) };
}

function readingPlaces(facts: Facts, subject: Subject, unit: Unit | null, truth: Q.Quantity): Wanted | null {
  const least = owner(facts, subject)?.term('least count');
  if (subject.kind !== 'term' || least === undefined || !least.ok) return null;
  const number = unit === null ? least.quantity.scalar : Q.inUnit(least.quantity, unit);
  const real = number === null ? null : S.realValue(number);
  if (real === null || R.sign(real) <= 0) return null;
  const places = R.terminatingPlaces(real);
  const isMean = MEANS.has(subject.term);
  const exact = unit === null ? truth.scalar : Q.inUnit(truth, unit);
  const needed = exact === null ? null : S.realValue(exact);
  const own = needed === null ? null : R.terminatingPlaces(needed);
  if (places === null || places > EXACT_PLACES) {
    const fewest = placesAsFine(real);
    return { least: isMean || FINE.has(subject.term) ? Math.min(fewest, own ?? fewest) : null, most: null };
  }
  // A half that was estimated, or a mean of zero checks, needs the places that it has.
  const most = Math.max(places + (isMean ? 1 : 0), isMean || own === null || own > places + 2 ? 0 : own);
  return { least: isMean || FINE.has(subject.term) ? places : null, most };
}

/** The fewest decimal places that are as fine as a least count which does not end itself: 2 for 5′ in degrees. */
export function placesAsFine(least: R.Rational): number {
  const exponent = R.decimalExponent(least);
  return Math.max(0, -exponent);
}

/** The decimal places that show so many figures of a value, in a unit; null for nought. */
function figurePlaces(value: Q.Quantity, unit: Unit | null, figures: number): number | null {
  const number = unit === null ? value.scalar : Q.inUnit(value, unit);
  const real = number === null ? null : S.realValue(number);
  if (real === null || R.isZero(real)) return null;
  return figures - 1 - R.decimalExponent(real);
}
