import { toDecimalText } from './decimal-text.ts';
import { combined, type Dimension, isPlain, NO_DIMENSION, raised, sameDimension } from './dimension.ts';
import { PI_50 } from './elementary.ts';
import * as R from './rational.ts';
import * as S from './scalar.ts';
import * as T from './trigonometry.ts';
import * as U from './unit.ts';

/**
 * A value with what kind of quantity it is: 2.484 cm is 0.02484 base units of length, shown in cm.
 *
 * The scalar counts base units (m kg s A K °C mol cd and the degree of angle), so that 1 cm and 10 mm are one value.
 * `unit` only says how to show it, null where nothing does.
 */
export interface Quantity {
  readonly scalar: S.Scalar;
  readonly dimension: Dimension;
  readonly unit: U.Unit | null;
}

/** Why there is no value: kinds that cannot be added, a division by nought, no such value, or past all bounds. */
export type Trouble =
  | { readonly kind: 'mismatch'; readonly left: Dimension; readonly right: Dimension }
  | { readonly kind: 'zero-division' }
  /** A formula that has no value in letters, although its percentage error may be known. */
  | { readonly kind: 'root-of-letters' }
  | { readonly kind: 'domain'; readonly what: string }
  | { readonly kind: 'too-large' };

export type Outcome =
  | { readonly ok: true; readonly quantity: Quantity }
  | { readonly ok: false; readonly trouble: Trouble };

/** A converted value that π came into is cut to this many figures, so that 0.5 rad is 0.5 rad again. */
const CLEAN_FIGURES = 45;
const DEGREE = U.unitWord('deg');

/** So many of a unit. */
export function quantity(value: R.Rational | S.Scalar, unit: U.Unit): Quantity {
  const number = asScalar(value);
  const isBase = unit.exact && R.equals(unit.factor, R.ONE);
  const scalar = isBase ? number : S.multiply(number, S.real(unit.factor, unit.exact));
  return { scalar, dimension: unit.dimension, unit };
}

/** A number without a unit. */
export function plain(value: R.Rational | S.Scalar): Quantity {
  return { scalar: asScalar(value), dimension: NO_DIMENSION, unit: null };
}

/** π, to 50 figures. */
export const PI: Quantity = plain(S.PI);

/** The number that a quantity without a unit is, exact or not; null for one with a unit and for letters. */
export function plainNumber(q: Quantity): R.Rational | null {
  return isPlain(q.dimension) ? S.realValue(q.scalar) : null;
}

/** The sum, shown in the left one's unit; trouble for centimetres and degrees. */
export function add(a: Quantity, b: Quantity): Outcome {
  return alike(a, b, S.add(a.scalar, b.scalar));
}

/** The difference, shown in the left one's unit; trouble for centimetres and degrees. */
export function subtract(a: Quantity, b: Quantity): Outcome {
  return alike(a, b, S.subtract(a.scalar, b.scalar));
}

/** The product; its unit follows from both, and a plain number leaves the other's unit as it is. */
export function multiply(a: Quantity, b: Quantity): Outcome {
  return outcome(S.multiply(a.scalar, b.scalar), combined(a.dimension, b.dimension, 1), productUnit(a, b, 1));
}

/** The quotient; its unit follows from both. Trouble for a division by nought. */
export function divide(a: Quantity, b: Quantity): Outcome {
  const scalar = S.divide(a.scalar, b.scalar);
  if (scalar === null) return { ok: false, trouble: { kind: 'zero-division' } };
  return outcome(scalar, combined(a.dimension, b.dimension, -1), productUnit(a, b, -1));
}

/** The quantity to a power: cm to the third is cm^3. A root must leave whole or half powers of the base units. */
export function power(a: Quantity, exponent: R.Rational): Outcome {
  const dimension = isPlain(a.dimension) ? NO_DIMENSION : raised(a.dimension, R.toNumber(exponent));
  if (dimension === null) return domain(`this kind of quantity to the power ${R.toFractionText(exponent)}`);
  const scalar = S.power(a.scalar, exponent);
  if (scalar === null) return { ok: false, trouble: powerTrouble(a.scalar, exponent) };
  const unit = a.unit === null || isPlain(dimension) ? null : U.powerUnit(a.unit, exponent);
  return outcome(scalar, dimension, unit);
}

/** The same size on the other side of zero. */
export function negate(a: Quantity): Quantity {
  return { ...a, scalar: S.negate(a.scalar) };
}

/** The size without the sign; trouble for letters whose sign is not known. */
export function abs(a: Quantity): Outcome {
  const scalar = S.abs(a.scalar);
  return scalar === null
    ? domain('the size of a value whose sign depends on its letters')
    : outcome(scalar, a.dimension, a.unit);
}

/** The square root, of an area in lengths. */
export function sqrt(a: Quantity): Outcome {
  return power(a, R.HALF);
}

/** What is left of a when whole lots of b are taken away, `0 <= result < b`; shown in a's unit. */
export function mod(a: Quantity, b: Quantity): Outcome {
  if (S.isZero(b.scalar) && sameDimension(a.dimension, b.dimension)) {
    return { ok: false, trouble: { kind: 'zero-division' } };
  }
  const scalar = sameDimension(a.dimension, b.dimension) ? S.modulo(a.scalar, b.scalar) : S.NOUGHT;
  return scalar === null ? domain('a remainder that depends on the letters') : alike(a, b, scalar);
}

/** The sine of an angle, or of a plain number taken as radians. */
export function sin(a: Quantity): Outcome {
  return ofAngle(a, T.sinDegrees, T.sin, 'the sine');
}

/** The cosine of an angle, or of a plain number taken as radians. */
export function cos(a: Quantity): Outcome {
  return ofAngle(a, T.cosDegrees, T.cos, 'the cosine');
}

/** The tangent of an angle, or of a plain number taken as radians; trouble at a right angle. */
export function tan(a: Quantity): Outcome {
  return ofAngle(a, T.tanDegrees, T.tan, 'the tangent');
}

/** The angle, shown in degrees, whose sine this is. */
export function arcsin(a: Quantity): Outcome {
  return toAngle(a, T.arcsinDegrees, 'the angle whose sine is');
}

/** The angle, shown in degrees, whose cosine this is. */
export function arccos(a: Quantity): Outcome {
  return toAngle(a, T.arccosDegrees, 'the angle whose cosine is');
}

/** The angle, shown in degrees, whose tangent this is. */
export function arctan(a: Quantity): Outcome {
  return toAngle(a, T.arctanDegrees, 'the angle whose tangent is');
}

/** The number that it is in a unit: 2.484 cm in mm is 24.84; null for a unit of another kind. */
export function inUnit(q: Quantity, unit: U.Unit): S.Scalar | null {
  if (!sameDimension(q.dimension, unit.dimension)) return null;
  if (unit.exact && R.equals(unit.factor, R.ONE)) return q.scalar;
  const number = S.divide(q.scalar, S.real(unit.factor, unit.exact));
  if (unit.exact || number === null || number.kind === 'formula') return number;
  return S.real(R.rationalRoundFigures(number.value, CLEAN_FIGURES), number.exact);
}

/**
 * The number of a quantity as it is written: in a unit, or in base units where none is said or it measures something else;
 * exact or to 50 figures, null for a formula of letters.
 */
export function numberIn(q: Quantity, unit: U.Unit | null): R.Rational | null {
  return S.realValue((unit === null ? null : inUnit(q, unit)) ?? q.scalar);
}

/** Which is larger: -1, 0 or 1; undefined for different kinds, and where it depends on the letters. */
export function compare(a: Quantity, b: Quantity): -1 | 0 | 1 | undefined {
  return sameDimension(a.dimension, b.dimension) ? S.compare(a.scalar, b.scalar) : undefined;
}

/** Whether both are the same value of the same kind, whatever unit they are shown in. */
export function equals(a: Quantity, b: Quantity): boolean {
  return sameDimension(a.dimension, b.dimension) && S.equals(a.scalar, b.scalar);
}

/** The same value, shown in another unit of its kind; a unit of another kind is not taken. */
export function withUnit(q: Quantity, unit: U.Unit): Quantity {
  return sameDimension(q.dimension, unit.dimension) ? { ...q, unit } : q;
}

/** The value with angles counted in radians and 1 rad = 1, so that radius times angle is a length. */
export function angleFree(q: Quantity): Quantity {
  const powers = q.dimension.angle;
  if (powers === 0) return q;
  const inRadians = S.power(PI_BY_180, R.rational(powers * 2, 2)) ?? S.TOO_LARGE;
  const dimension = { ...q.dimension, angle: 0 };
  const unit = q.unit === null || isPlain(dimension) ? null : U.withoutAngles(q.unit);
  return { scalar: S.multiply(q.scalar, inRadians), dimension, unit };
}

/** A ratio of lengths as the angle that it is in radians; null for what is no plain number. */
export function asAngle(q: Quantity): Quantity | null {
  const scalar = isPlain(q.dimension) ? S.divide(q.scalar, PI_BY_180) : null;
  return scalar === null || DEGREE === null
    ? null
    : { scalar, dimension: DEGREE.dimension, unit: q.unit === null ? null : DEGREE };
}

/** The value written out: `2.484 cm`, `24.5°`; rounded half to even, a formula as it is. */
export function shownDecimal(q: Quantity, unit: U.Unit, places: number): string {
  const number = inUnit(q, unit) ?? q.scalar;
  const value = S.realValue(number);
  const written = value === null ? S.scalarText(number) : toDecimalText(value, places);
  const shown = U.unitShown(unit);
  return shown === '' ? written : /^[°′″]$/.test(shown) ? written + shown : `${written} ${shown}`;
}

const PI_BY_180 = S.real(R.rationalRoundFigures(R.multiply(PI_50, R.rational(1, 180)), 50), false);

function asScalar(value: R.Rational | S.Scalar): S.Scalar {
  return 'kind' in value ? value : S.real(value);
}

function outcome(scalar: S.Scalar, dimension: Dimension, unit: U.Unit | null): Outcome {
  if (S.isTooLarge(scalar)) return { ok: false, trouble: { kind: 'too-large' } };
  return { ok: true, quantity: { scalar, dimension, unit } };
}

function domain(what: string): Outcome {
  return { ok: false, trouble: { kind: 'domain', what } };
}

function alike(a: Quantity, b: Quantity, scalar: S.Scalar): Outcome {
  if (!sameDimension(a.dimension, b.dimension)) {
    return { ok: false, trouble: { kind: 'mismatch', left: a.dimension, right: b.dimension } };
  }
  return outcome(scalar, a.dimension, a.unit ?? b.unit);
}

function productUnit(a: Quantity, b: Quantity, times: 1 | -1): U.Unit | null {
  const left = a.unit !== null && isPlain(a.dimension) ? null : a.unit;
  const right = b.unit !== null && isPlain(b.dimension) ? null : b.unit;
  if (right === null) return left;
  if (left === null && times === 1) return right;
  const joint = U.jointUnit(left ?? U.DIMENSIONLESS, right, times);
  return joint.parts.length === 0 ? null : joint;
}

function powerTrouble(a: S.Scalar, exponent: R.Rational): Trouble {
  if (a.kind === 'formula') return { kind: 'root-of-letters' };
  const what = R.sign(exponent) < 0 ? 'nought to a negative power' : 'a root of a negative number';
  return { kind: 'domain', what };
}

type Elementary = (a: S.Scalar) => S.Scalar | null;

function ofAngle(a: Quantity, ofDegrees: Elementary, ofRadians: Elementary, name: string): Outcome {
  const isAngle = a.dimension.angle === 1 && isPlain({ ...a.dimension, angle: 0 });
  if (!isAngle && !isPlain(a.dimension)) return domain(`${name} of what is no angle`);
  const scalar = isAngle ? ofDegrees(a.scalar) : ofRadians(a.scalar);
  if (scalar !== null) return outcome(scalar, NO_DIMENSION, null);
  return domain(a.scalar.kind === 'formula' ? `${name} of letters` : `${name} of a right angle`);
}

function toAngle(a: Quantity, inDegrees: Elementary, name: string): Outcome {
  if (!isPlain(a.dimension)) return domain(`${name} something with a unit`);
  const scalar = inDegrees(a.scalar);
  if (scalar === null)
    return domain(a.scalar.kind === 'formula' ? `${name} a formula` : `${name} more than 1`);
  return outcome(scalar, DEGREE?.dimension ?? NO_DIMENSION, DEGREE);
}
