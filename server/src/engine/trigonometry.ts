import * as E from './elementary.ts';
import * as R from './rational.ts';
import { divide, multiply, NOUGHT, near, PI, real, type Scalar, UNITY } from './scalar.ts';

const STRAIGHT_ANGLE = real(R.rational(180));
/** An inexact angle this near a multiple of 15° is that multiple: 50 figures tell no more. */
const SNAPPING_STEP = R.rational(15);
const LAST_FIGURES = R.rational(1n, 10n ** 44n);

/** The sine of an angle in radians; exact for 0 only. Null for letters. */
export function sin(a: Scalar): Scalar | null {
  return ofRadians(a, E.sineOf, sinDegrees, NOUGHT);
}

/** The cosine of an angle in radians; exact for 0 only. Null for letters. */
export function cos(a: Scalar): Scalar | null {
  return ofRadians(a, E.cosineOf, cosDegrees, UNITY);
}

/** The tangent of an angle in radians; exact for 0 only. Null for letters and at a right angle. */
export function tan(a: Scalar): Scalar | null {
  return ofRadians(a, E.tangentOf, tanDegrees, NOUGHT);
}

/** The sine of an angle in degrees; exact where it is 0, 1/2 or 1 in size. Null for letters. */
export function sinDegrees(a: Scalar): Scalar | null {
  return ofDegrees(a, E.sineOfDegrees);
}

/** The cosine of an angle in degrees; exact where it is 0, 1/2 or 1 in size. Null for letters. */
export function cosDegrees(a: Scalar): Scalar | null {
  return ofDegrees(a, E.cosineOfDegrees);
}

/** The tangent of an angle in degrees; exact where it is 0 or 1 in size. Null for letters and at a right angle. */
export function tanDegrees(a: Scalar): Scalar | null {
  return ofDegrees(a, E.tangentOfDegrees);
}

/** The angle in radians whose sine is a, between -π/2 and π/2. Null for letters and |a| > 1. */
export function arcsin(a: Scalar): Scalar | null {
  return inRadians(arcsinDegrees(a));
}

/** The angle in radians whose cosine is a, between 0 and π. Null for letters and |a| > 1. */
export function arccos(a: Scalar): Scalar | null {
  return inRadians(arccosDegrees(a));
}

/** The angle in radians whose tangent is a, between -π/2 and π/2. Null for letters. */
export function arctan(a: Scalar): Scalar | null {
  return inRadians(arctanDegrees(a));
}

/** The angle in degrees whose sine is a; exact for 0, 1/2 and 1 in size. Null for letters and |a| > 1. */
export function arcsinDegrees(a: Scalar): Scalar | null {
  return inDegrees(a, E.arcsineOf, ARCSINES);
}

/** The angle in degrees whose cosine is a; exact for 0, 1/2 and 1 in size. Null for letters and |a| > 1. */
export function arccosDegrees(a: Scalar): Scalar | null {
  return inDegrees(a, E.arccosineOf, ARCCOSINES);
}

/** The angle in degrees whose tangent is a; exact for 0 and 1 in size. Null for letters. */
export function arctanDegrees(a: Scalar): Scalar | null {
  return inDegrees(a, E.arctangentOf, ARCTANGENTS);
}

const ARCSINES: ReadonlyMap<string, number> = new Map([
  ['-1', -90],
  ['-1/2', -30],
  ['0', 0],
  ['1/2', 30],
  ['1', 90],
]);
const ARCCOSINES: ReadonlyMap<string, number> = new Map([
  ['-1', 180],
  ['-1/2', 120],
  ['0', 90],
  ['1/2', 60],
  ['1', 0],
]);
const ARCTANGENTS: ReadonlyMap<string, number> = new Map([
  ['-1', -45],
  ['0', 0],
  ['1', 45],
]);

type Elementary = (a: R.Rational) => R.Rational | null;

function ofDegrees(a: Scalar, f: Elementary): Scalar | null {
  if (a.kind === 'formula') return null;
  const value = f(a.exact ? a.value : snapped(a.value));
  // By Niven's theorem a sine or tangent of rational degrees is a short fraction or not rational at all.
  return value === null ? null : real(value, a.exact && R.denominator(value) <= 2n);
}

function ofRadians(
  a: Scalar,
  f: Elementary,
  inDegreesToo: (a: Scalar) => Scalar | null,
  atZero: Scalar,
): Scalar | null {
  if (a.kind === 'formula') return null;
  if (R.isZero(a.value)) return a.exact ? atZero : real(f(a.value) ?? R.ZERO, false);
  if (!a.exact) {
    const degrees = divide(multiply(a, STRAIGHT_ANGLE), PI);
    const value = degrees?.kind === 'real' ? degrees.value : null;
    if (value !== null && snapped(value) !== value) return inDegreesToo(real(snapped(value), false));
  }
  const value = f(a.value);
  return value === null ? null : real(value, false);
}

function snapped(degrees: R.Rational): R.Rational {
  const nearest = R.roundTo(degrees, SNAPPING_STEP, 'half-even');
  return near(degrees, nearest) ? nearest : degrees;
}

function inDegrees(a: Scalar, f: Elementary, exact: ReadonlyMap<string, number>): Scalar | null {
  if (a.kind === 'formula') return null;
  const value = a.exact ? a.value : nearHalf(a.value);
  const known = exact.get(R.toFractionText(value));
  if (known !== undefined) return real(R.rational(known), a.exact);
  const radians = f(value);
  return radians === null ? null : divide(multiply(real(radians, false), STRAIGHT_ANGLE), PI);
}

/** An inexact 1.000…01 is 1 as far as its figures go, and has an angle; the same for 0 and 1/2. */
function nearHalf(a: R.Rational): R.Rational {
  const nearest = R.roundTo(a, R.HALF, 'half-even');
  return R.compare(R.abs(R.subtract(a, nearest)), LAST_FIGURES) <= 0 ? nearest : a;
}

function inRadians(degrees: Scalar | null): Scalar | null {
  return degrees === null ? null : divide(multiply(degrees, PI), STRAIGHT_ANGLE);
}
