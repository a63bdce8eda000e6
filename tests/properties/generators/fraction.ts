/**
 * An exact fraction of the tests' own: what they expect must not rest on the arithmetic that they test.
 *
 * In lowest terms, the denominator positive.
 */
export interface Fraction {
  readonly top: bigint;
  readonly bottom: bigint;
}

export function fraction(top: bigint | number, bottom: bigint | number = 1): Fraction {
  const a = BigInt(top);
  const b = BigInt(bottom);
  if (b === 0n) throw new Error('a fraction over zero');
  const common = commonDivisor(a, b) * (b < 0n ? -1n : 1n);
  return { top: a / common, bottom: b / common };
}

export const NOUGHT = fraction(0);
export const ONE = fraction(1);

export function commonDivisor(a: bigint, b: bigint): bigint {
  let [x, y] = [a < 0n ? -a : a, b < 0n ? -b : b];
  while (y !== 0n) [x, y] = [y, x % y];
  return x === 0n ? 1n : x;
}

export function plus(...terms: readonly Fraction[]): Fraction {
  return terms.reduce((a, b) => fraction(a.top * b.bottom + b.top * a.bottom, a.bottom * b.bottom), NOUGHT);
}

export function minus(a: Fraction, ...taken: readonly Fraction[]): Fraction {
  return plus(a, ...taken.map(negative));
}

export function negative(a: Fraction): Fraction {
  return { top: -a.top, bottom: a.bottom };
}

export function size(a: Fraction): Fraction {
  return a.top < 0n ? negative(a) : a;
}

export function times(...factors: readonly Fraction[]): Fraction {
  return factors.reduce((a, b) => fraction(a.top * b.top, a.bottom * b.bottom), ONE);
}

export function over(a: Fraction, b: Fraction): Fraction {
  return fraction(a.top * b.bottom, a.bottom * b.top);
}

export function toPower(a: Fraction, exponent: number): Fraction {
  const whole = { top: a.top ** BigInt(Math.abs(exponent)), bottom: a.bottom ** BigInt(Math.abs(exponent)) };
  return exponent < 0 ? fraction(whole.bottom, whole.top) : fraction(whole.top, whole.bottom);
}

export function isSame(a: Fraction, b: Fraction): boolean {
  return a.top === b.top && a.bottom === b.bottom;
}

export function isLess(a: Fraction, b: Fraction): boolean {
  return a.top * b.bottom < b.top * a.bottom;
}

export function mean(values: readonly Fraction[]): Fraction {
  return over(plus(...values), fraction(values.length));
}

/** `-7/2`, `3`: as a program would write it. */
export function fractionText(a: Fraction): string {
  return a.bottom === 1n ? `${a.top}` : `${a.top}/${a.bottom}`;
}

/** Reads `-7/2`, `3` and `0.05`; null for anything else. */
export function readFraction(text: string): Fraction | null {
  const ratio = /^(-?\d+)\/(\d+)$/.exec(text);
  if (ratio) return fraction(BigInt(ratio[1]!), BigInt(ratio[2]!));
  const decimal = /^(-?)(\d+)(?:\.(\d+))?$/.exec(text);
  if (!decimal) return null;
  const places = decimal[3] ?? '';
  const value = fraction(BigInt(decimal[2]! + places), 10n ** BigInt(places.length));
  return decimal[1] === '-' ? negative(value) : value;
}

/** How many decimal places write it exactly; null where none do within nine. */
export function placesOf(a: Fraction): number | null {
  for (let places = 0; places <= 9; places += 1) {
    if (10n ** BigInt(places) % a.bottom === 0n) return places;
  }
  return null;
}

/** Rounded at the places wanted, halves away from zero; `cut` throws the rest away instead. */
export function atPlaces(a: Fraction, places: number, how: 'round' | 'cut' = 'round'): Fraction {
  const scale = 10n ** BigInt(Math.abs(places));
  const scaled = places < 0 ? over(a, fraction(scale)) : times(a, fraction(scale));
  const whole = size(scaled);
  const twice = how === 'round' ? 2n * whole.top + whole.bottom : 2n * whole.top;
  const rounded = fraction(twice / (2n * whole.bottom));
  const signed = scaled.top < 0n ? negative(rounded) : rounded;
  return places < 0 ? times(signed, fraction(scale)) : over(signed, fraction(scale));
}

/** `2.50`: rounded at the places wanted, trailing zeros kept. */
export function decimalText(a: Fraction, places: number): string {
  const value = atPlaces(a, places);
  if (places <= 0) return `${value.top}`;
  const digits = `${(size(value).top * 10n ** BigInt(places)) / value.bottom}`.padStart(places + 1, '0');
  return `${value.top < 0n ? '-' : ''}${digits.slice(0, -places)}.${digits.slice(-places)}`;
}

/** The place of the first digit that is not 0, as a number of decimals: 0.034 -> 2, 1.4 -> 0, 27 -> -1. */
export function firstPlace(a: Fraction): number {
  const value = size(a);
  if (value.top === 0n) throw new Error('nought has no first digit');
  let places = 0;
  const unit = (n: number) => (n >= 0 ? fraction(1, 10n ** BigInt(n)) : fraction(10n ** BigInt(-n)));
  while (isLess(value, unit(places))) places += 1;
  while (!isLess(value, unit(places - 1))) places -= 1;
  return places;
}
