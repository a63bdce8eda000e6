import { bitLength, integerRoot } from './integer.ts';
import * as R from './rational.ts';
import { FIGURES, squareRoot } from './root.ts';

/** Binary places of the fixed-point series: 50 figures take 167, the rest is in hand. */
const PLACES = 256;
/** An angle that needs more places than this to tell it from a multiple of a right angle counts as that multiple. */
const MOST_PLACES = 6000;
const RIGHT_ANGLE = R.rational(90);
const STRAIGHT_ANGLE = R.rational(180);

/** Sine and cosine of one angle, as fractions of the same whole. */
interface SineCosine {
  readonly sine: bigint;
  readonly cosine: bigint;
  readonly places: number;
}

/** π to 50 figures, written out so that nothing need be worked out before the first angle. */
export const PI_50: R.Rational = R.rational(31415926535897932384626433832795028841971693993751n, 10n ** 49n);

/** The sine of an angle in radians, to 50 figures. */
export function sineOf(radians: R.Rational): R.Rational {
  const { sine, places } = ofRadians(radians);
  return fromFixed(sine, places);
}

/** The cosine of an angle in radians, to 50 figures. */
export function cosineOf(radians: R.Rational): R.Rational {
  const { cosine, places } = ofRadians(radians);
  return fromFixed(cosine, places);
}

/** The tangent of an angle in radians, to 50 figures; null at a right angle. */
export function tangentOf(radians: R.Rational): R.Rational | null {
  return ratio(ofRadians(radians));
}

/** The sine of an angle in degrees: exact where it is 0, 1/2 or 1 in size, else to 50 figures. */
export function sineOfDegrees(degrees: R.Rational): R.Rational {
  const turned = R.modulo(degrees, R.rational(360));
  const exact = R.isInteger(turned) ? EXACT_SINES.get(R.toInteger(turned) ?? -1) : undefined;
  if (exact !== undefined) return exact;
  const { sine, places } = ofDegrees(turned);
  return fromFixed(sine, places);
}

/** The cosine of an angle in degrees: exact where it is 0, 1/2 or 1 in size, else to 50 figures. */
export function cosineOfDegrees(degrees: R.Rational): R.Rational {
  return sineOfDegrees(R.add(degrees, RIGHT_ANGLE));
}

/** The tangent of an angle in degrees: exact where it is 0 or 1 in size, else to 50 figures; null at a right angle. */
export function tangentOfDegrees(degrees: R.Rational): R.Rational | null {
  const turned = R.modulo(degrees, STRAIGHT_ANGLE);
  const whole = R.toInteger(turned);
  if (whole === 0) return R.ZERO;
  if (whole === 45) return R.ONE;
  if (whole === 135) return R.negate(R.ONE);
  return whole === 90 ? null : ratio(ofDegrees(turned));
}

/** The angle in radians whose tangent is a, between -π/2 and π/2, to 50 figures. */
export function arctangentOf(a: R.Rational): R.Rational {
  if (R.isZero(a)) return R.ZERO;
  const size = R.abs(a);
  const smallness = bitLength(R.denominator(size)) - bitLength(R.numerator(size));
  const places = PLACES + Math.max(0, smallness);
  const angle =
    R.compare(size, R.ONE) <= 0
      ? arctangentFixed(toFixed(size, places), places)
      : piFixed(places) / 2n - arctangentFixed(toFixed(R.reciprocal(size) ?? R.ZERO, places), places);
  return fromFixed(R.sign(a) < 0 ? -angle : angle, places);
}

/** The angle in radians whose sine is a, between -π/2 and π/2, to 50 figures; null for |a| > 1. */
export function arcsineOf(a: R.Rational): R.Rational | null {
  const rest = R.subtract(R.ONE, R.multiply(a, a));
  if (R.sign(rest) < 0) return null;
  if (R.isZero(rest)) return R.multiply(a, R.multiply(PI_50, R.HALF));
  const tangent = squareRoot(R.divide(R.multiply(a, a), rest) ?? R.ZERO, FIGURES + 20);
  return arctangentOf(R.sign(a) < 0 ? R.negate(tangent) : tangent);
}

/** The angle in radians whose cosine is a, between 0 and π, to 50 figures; null for |a| > 1. */
export function arccosineOf(a: R.Rational): R.Rational | null {
  if (R.compare(R.abs(a), R.ONE) > 0) return null;
  const square = R.divide(R.subtract(R.ONE, a), R.add(R.ONE, a));
  return square === null ? PI_50 : R.multiply(R.TWO, arctangentOf(squareRoot(square, FIGURES + 20)));
}

const EXACT_SINES: ReadonlyMap<number, R.Rational> = new Map([
  [0, R.ZERO],
  [30, R.HALF],
  [90, R.ONE],
  [150, R.HALF],
  [180, R.ZERO],
  [210, R.negate(R.HALF)],
  [270, R.negate(R.ONE)],
  [330, R.negate(R.HALF)],
]);

function ratio({ sine, cosine }: SineCosine): R.Rational | null {
  if (cosine === 0n) return null;
  return cosine < 0n ? R.roundedRatio(-sine, -cosine, FIGURES) : R.roundedRatio(sine, cosine, FIGURES);
}

/** The right angles come off before π comes in, so that nothing is lost near a multiple of 180°. */
function ofDegrees(degrees: R.Rational): SineCosine {
  const quarters = R.roundTo(R.divide(degrees, RIGHT_ANGLE) ?? R.ZERO, R.ONE, 'half-even');
  const rest = R.subtract(degrees, R.multiply(quarters, RIGHT_ANGLE));
  const smallness = bitLength(R.denominator(rest)) - bitLength(R.numerator(R.abs(rest)));
  const places = PLACES + Math.max(0, smallness);
  const angle = (toFixed(rest, places) * piFixed(places)) / (180n << BigInt(places));
  return turnedBy(R.numerator(quarters), angle, places);
}

/** An angle close to a multiple of π/2 needs more places of π: they are added until 200 figures of two are left. */
function ofRadians(radians: R.Rational): SineCosine {
  const largeness = Math.max(
    0,
    bitLength(R.numerator(R.abs(radians))) - bitLength(R.denominator(radians)) + 1,
  );
  for (let places = PLACES + largeness; ; ) {
    const angle = toFixed(radians, places);
    const quarter = piFixed(places) / 2n;
    const quarters = (angle + (angle < 0n ? -quarter : quarter) / 2n) / quarter;
    const rest = angle - quarters * quarter;
    const missing = 200 + largeness - bitLength(rest < 0n ? -rest : rest);
    if (missing <= 0 || R.isZero(radians)) return turnedBy(quarters, rest, places);
    if (places + missing > MOST_PLACES) return turnedBy(quarters, 0n, places);
    places += missing + 32;
  }
}

function turnedBy(quarters: bigint, angle: bigint, places: number): SineCosine {
  const sine = seriesFrom(angle, 1n, angle, places);
  const cosine = seriesFrom(1n << BigInt(places), 0n, angle, places);
  switch (((quarters % 4n) + 4n) % 4n) {
    case 0n:
      return { sine, cosine, places };
    case 1n:
      return { sine: cosine, cosine: -sine, places };
    case 2n:
      return { sine: -sine, cosine: -cosine, places };
    default:
      return { sine: -cosine, cosine: sine, places };
  }
}

/** The power series of sine (from x) and cosine (from 1): each term is the last times -x²/((n + 1)(n + 2)). */
function seriesFrom(first: bigint, order: bigint, x: bigint, places: number): bigint {
  const shift = BigInt(places);
  const square = (x * x) >> shift;
  let term = first;
  let sum = 0n;
  for (let n = order; term !== 0n; n += 2n) {
    sum += term;
    term = -((term * square) / ((n + 1n) * (n + 2n))) / (1n << shift);
  }
  return sum;
}

/** Arctangent of 0 <= x <= 1, halved twice first: arctan x = 2 arctan(x / (1 + √(1 + x²))). */
function arctangentFixed(x: bigint, places: number): bigint {
  const shift = BigInt(places);
  const one = 1n << shift;
  let small = x;
  for (let i = 0; i < 2; i += 1) {
    small = (small << shift) / (one + integerRoot((one << shift) + small * small, 2n));
  }
  const square = (small * small) >> shift;
  let power = small;
  let sum = 0n;
  for (let n = 1n; power > 0n; n += 2n) {
    sum += n % 4n === 1n ? power / n : -(power / n);
    power = (power * square) >> shift;
  }
  return sum * 4n;
}

/** π as far as it has been needed. */
let knownPi = { value: 0n, places: 0 };

/** π by Machin's formula: π = 16 arctan(1/5) - 4 arctan(1/239). */
function piFixed(places: number): bigint {
  if (knownPi.places < places) {
    const more = places + 64;
    const value = 16n * arctangentOfReciprocal(5n, more) - 4n * arctangentOfReciprocal(239n, more);
    knownPi = { value, places: more };
  }
  return knownPi.value >> BigInt(knownPi.places - places);
}

function arctangentOfReciprocal(n: bigint, places: number): bigint {
  let power = (1n << BigInt(places + 16)) / n;
  let sum = 0n;
  for (let odd = 1n; power > 0n; odd += 2n) {
    sum += odd % 4n === 1n ? power / odd : -(power / odd);
    power /= n * n;
  }
  return sum >> 16n;
}

function toFixed(a: R.Rational, places: number): bigint {
  return (R.numerator(a) << BigInt(places)) / R.denominator(a);
}

function fromFixed(a: bigint, places: number): R.Rational {
  return R.roundedRatio(a, 1n << BigInt(places), FIGURES);
}
