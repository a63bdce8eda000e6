import { toDecimalText, toSignificantText } from '../decimal-text.ts';
import * as Q from '../quantity.ts';
import * as R from '../rational.ts';
import * as S from '../scalar.ts';
import { DIMENSIONLESS, likelyBaseUnits, type Unit, unitShown, unitWord } from '../unit.ts';
import type { SlipData } from './slip.ts';

/** Places and figures that a sentence for a student can bear. */
const MOST_PLACES = 6;
const FIGURES = 4;
const MOST_BELOW = R.rational(1000);
const ARCSEC = unitWord('arcsec')!;

/** A value within a sentence, in the unit that the student used: `0.06 mm`, `28° 15′`, `w/(2k)`. */
export function inWords(data: SlipData, q: Q.Quantity): string {
  const unit = unitFor(data, q);
  if (unit !== null && q.dimension.angle === 1 && !statesDecimals(data)) {
    const angle = sexagesimal(q);
    if (angle !== null) return angle;
  }
  return decimalWords(data, q, unit);
}

/** A value with more places than are stated, for a sentence about rounding: `2.04567 cm` beside 2.05. */
export function inFull(data: SlipData, q: Q.Quantity): string {
  const unit = unitFor(data, q);
  const number = (unit === null ? null : Q.inUnit(q, unit)) ?? q.scalar;
  const value = S.realValue(number);
  const places = value === null ? null : R.terminatingPlaces(value);
  const stated =
    data.place === null ? null : R.terminatingPlaces(R.divide(data.place, unit?.factor ?? R.ONE) ?? R.ONE);
  if (stated === null || (places !== null && places <= MOST_PLACES)) return inWords(data, q);
  return Q.shownDecimal(q, unit ?? DIMENSIONLESS, stated + 3);
}

/** A value in a unit of the sentence's own choosing. */
export function inWordsOf(q: Q.Quantity, unit: Unit): string {
  return decimalWords(null, q, unit);
}

/** A value of a formula in the unit that it was recorded in, whatever the result is in. */
export function inOwnUnit(q: Q.Quantity): string {
  return decimalWords(null, q, q.unit ?? likelyBaseUnits(q.dimension));
}

/** A reading or a zero error, which shows how finely it was read: `27.20 mm` where the least count is 0.05 mm. */
export function readingInWords(data: SlipData, q: Q.Quantity): string {
  const text = inWords(data, q);
  const unit = unitFor(data, q);
  const number = unit === null ? null : Q.inUnit(q, unit);
  const value = number === null ? null : S.realValue(number);
  const places = value === null ? null : R.terminatingPlaces(value);
  const least = leastPlaces(data, unit);
  const isWhole = value === null || unit === null || places === null || least === null;
  return isWhole || least <= places || text !== decimalWords(data, q, unit)
    ? text
    : Q.shownDecimal(q, unit, least);
}

/** The decimal places of the least count in a unit; null where it has no end in it, or is not known. */
function leastPlaces(data: SlipData, unit: Unit | null): number | null {
  const leastCount = data.value('least count');
  const number = leastCount === null || unit === null ? null : Q.inUnit(leastCount, unit);
  const value = number === null ? null : S.realValue(number);
  const places = value === null ? null : R.terminatingPlaces(value);
  return places !== null && places <= MOST_PLACES ? places : null;
}

/** A zero error or a correction, which always has its sign: `+0.06 mm`. */
export function withSign(data: SlipData, q: Q.Quantity): string {
  const text = readingInWords(data, q);
  return S.sign(q.scalar) === 1 ? `+${text}` : text;
}

/** A value that is taken off, in brackets where it is negative: `(-0.15 mm)`. */
export function inBrackets(data: SlipData, q: Q.Quantity): string {
  const text = readingInWords(data, q);
  return text.startsWith('-') ? `(${text})` : text;
}

/** A number without a unit: `17`, `34.5`, `1/2`. */
export function numberWords(value: Q.Quantity | R.Rational): string {
  const scalar = 'scalar' in value ? value.scalar : S.real(value);
  const number = S.realValue(scalar);
  return number === null ? S.scalarText(scalar) : numberText(number, S.isExact(scalar));
}

function unitFor(data: SlipData, q: Q.Quantity): Unit | null {
  const stated = data.stated.unit;
  if (stated !== null && Q.inUnit(q, stated) !== null) return stated;
  if (q.unit !== null && Q.inUnit(q, q.unit) !== null) return q.unit;
  const plain = likelyBaseUnits(q.dimension);
  return plain.symbol === '' ? null : plain;
}

function decimalWords(data: SlipData | null, q: Q.Quantity, unit: Unit | null): string {
  const number = (unit === null ? null : Q.inUnit(q, unit)) ?? q.scalar;
  const value = S.realValue(number);
  // Letters bring their unit with them.
  if (value === null) return S.scalarText(q.scalar);
  const shown = unit === null ? '' : unitShown(unit);
  const gap = shown === '' || /^[°′″](?![A-Za-z])/.test(shown) ? '' : ' ';
  const isExact = S.isExact(number);
  const fraction = isExact && data !== null && mayShowFractions(data) ? fractionText(value) : null;
  const text = fraction ?? numberText(value, isExact);
  return `${text}${gap}${shown}`;
}

/** Beside a fraction or a formula of a reading the steps of the scale are told exactly. */
function mayShowFractions({ place, target }: SlipData): boolean {
  return place === null && (READ.has(target) || target.endsWith(' division'));
}

const READ = new Set([
  'least count',
  'pitch',
  'zero error',
  'zero correction',
  'observed reading',
  'corrected reading',
  'vernier scale reading',
]);

/** `2 29/128`, beside what is no decimal; null where a decimal ends soon, or the fraction is a long one. */
function fractionText(value: R.Rational): string | null {
  const places = R.terminatingPlaces(value);
  const below = R.rational(R.denominator(value));
  if ((places !== null && places <= MOST_PLACES) || R.compare(below, MOST_BELOW) > 0) return null;
  const size = R.abs(value);
  const whole = R.floor(size);
  const part = R.toFractionText(R.subtract(size, whole));
  const sign = R.sign(value) < 0 ? '-' : '';
  return R.isZero(whole) ? `${sign}${part}` : `${sign}${R.toFractionText(whole)} ${part}`;
}

function numberText(value: R.Rational, exact: boolean): string {
  const places = R.terminatingPlaces(value);
  if (exact && places !== null && places <= MOST_PLACES) return toDecimalText(value, places);
  return toSignificantText(value, FIGURES);
}

/** Whether an angle is stated as `28.25°`: a minute or a second is no decimal part of a degree. */
function statesDecimals({ place }: SlipData): boolean {
  return place !== null && !R.isInteger(place) && R.terminatingPlaces(place) !== null;
}

/** Degrees, minutes and seconds, `28° 15′`; null where the seconds do not come out whole. */
function sexagesimal(q: Q.Quantity): string | null {
  const number = Q.inUnit(q, ARCSEC);
  const value = number === null ? null : S.realValue(number);
  const total = value === null ? null : R.toInteger(R.abs(value));
  if (value === null || total === null) return null;
  const parts = [
    [Math.floor(total / 3600), '°'],
    [Math.floor(total / 60) % 60, '′'],
    [total % 60, '″'],
  ] as const;
  const text = parts.flatMap(([count, mark]) => (count === 0 ? [] : [`${count}${mark}`])).join(' ');
  return `${R.sign(value) < 0 ? '-' : ''}${text === '' ? '0°' : text}`;
}
