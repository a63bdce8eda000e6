import { type Draw, pick } from './draw.ts';
import {
  decimalText,
  type Fraction,
  fraction,
  isSame,
  over,
  placesOf,
  readFraction,
  times,
} from './fraction.ts';

/** What an instrument of the bench measures in: a metric length, an inch length, an angle. */
export type Measure = 'metric' | 'inch' | 'angle';
export type Unit = 'mm' | 'cm' | 'm' | 'um' | 'in' | 'deg' | 'arcmin' | 'arcsec';

/** Millimetres to one metric unit (SI prefixes), inches to one inch, degrees to one unit of angle. */
const SIZE: Readonly<Record<Unit, Fraction>> = {
  mm: fraction(1),
  cm: fraction(10),
  m: fraction(1000),
  um: fraction(1, 1000),
  in: fraction(127, 5),
  deg: fraction(1),
  arcmin: fraction(1, 60),
  arcsec: fraction(1, 3600),
};

export const UNITS: Readonly<Record<Measure, readonly Unit[]>> = {
  metric: ['mm', 'cm'],
  inch: ['in'],
  angle: ['deg', 'arcmin'],
};

export function inBase(value: Fraction, unit: Unit): Fraction {
  return times(value, SIZE[unit]);
}

export function inUnit(base: Fraction, unit: Unit): Fraction {
  return over(base, SIZE[unit]);
}

/** Reads a value as programs get it, `1/50` and `mm`; null where the unit or the number is none of ours. */
export function readMeasure(value: string, unit: string | null): Fraction | null {
  const number = readFraction(value);
  return number !== null && unit !== null && Object.hasOwn(SIZE, unit) ? inBase(number, unit as Unit) : null;
}

/** Writes an exact length or angle in one of the ways in which a tutor would; null where none is exact. */
export function spellMeasure(draw: Draw, base: Fraction, measure: Measure): string | null {
  const ways = [
    ...UNITS[measure].flatMap(unit => decimalWays(base, unit)),
    ...UNITS[measure].flatMap(unit => fractionWays(base, unit)),
    ...(measure === 'angle' ? angleWays(base) : []),
  ];
  return ways.length > 0 ? pick(draw, ways) : null;
}

function decimalWays(base: Fraction, unit: Unit): string[] {
  const value = inUnit(base, unit);
  const places = placesOf(value);
  if (places === null || places > 6) return [];
  const plain = decimalText(value, places);
  return [`${plain} ${unit}`, `${decimalText(value, places + 1)} ${unit}`, `${plain}${unit}`];
}

function fractionWays(base: Fraction, unit: Unit): string[] {
  const value = inUnit(base, unit);
  if (value.bottom === 1n || value.bottom > 5000n || value.top <= 0n) return [];
  const whole = value.top / value.bottom;
  if (whole === 0n) return [`${value.top}/${value.bottom} ${unit}`];
  const part = value.top % value.bottom;
  // `1 101/200` may be 1101/200, grouped by three: the checker asks which.
  return part > 99n ? [] : [`${whole} ${part}/${value.bottom} ${unit}`];
}

function angleWays(base: Fraction): string[] {
  const seconds = inUnit(base, 'arcsec');
  if (seconds.bottom !== 1n || seconds.top < 0n) return [];
  const [degrees, minutes, rest] = [seconds.top / 3600n, (seconds.top / 60n) % 60n, seconds.top % 60n];
  if (rest !== 0n) return [`${degrees}° ${minutes}′ ${rest}″`, `${degrees}° ${minutes}' ${rest}"`];
  return [`${degrees}° ${minutes}′`, `${degrees} deg ${minutes} arcmin`, `${degrees}° ${minutes}'`];
}

/** Whether two values in the base unit are one and the same. */
export function agrees(reported: Fraction | null, expected: Fraction): boolean {
  return reported !== null && isSame(reported, expected);
}
