import { roundedUnits } from '../../engine/integer.ts';
import * as R from '../../engine/rational.ts';

/** Markup that is whole and escaped; made by the functions of this file only. */
export type Svg = string & { readonly svg: true };

/** A coordinate: exact where it says something, a number of the layout elsewhere. */
export type Coordinate = R.Rational | number;

export type Attributes = Readonly<Record<string, string | Coordinate | null>>;

/** One element with its attributes and what stands in it; an attribute that is null is left out. */
export function element(name: string, attributes: Attributes, ...inside: readonly Svg[]): Svg {
  let start = `<${name}`;
  for (const key of Object.keys(attributes)) {
    const value = attributes[key];
    if (value !== null && value !== undefined) start += ` ${key}="${attributeText(key, value)}"`;
  }
  const content = together(...inside);
  return (content === '' ? `${start}/>` : `${start}>${content}</${name}>`) as Svg;
}

function attributeText(key: string, value: string | Coordinate): string {
  if (typeof value !== 'string') return coordinate(value);
  // The way of a path is made of coordinates alone, and long.
  return key === 'd' ? value : escaped(value);
}

/** Words of any origin as text that stands for itself. */
export function words(text: string): Svg {
  return escaped(text) as Svg;
}

/** Several pieces behind one another. */
export function together(...pieces: readonly Svg[]): Svg {
  let all = '';
  for (const piece of pieces) all += piece;
  return all as Svg;
}

/** A text at a place; `anchor` as in SVG, in the middle unless said otherwise. */
export function label(
  x: Coordinate,
  y: Coordinate,
  text: string,
  attributes: Attributes & { readonly fill?: never; readonly stroke?: never } = {},
): Svg {
  let more = '';
  for (const key of Object.keys(attributes)) {
    const value = attributes[key];
    if (key !== 'text-anchor' && value !== null && value !== undefined)
      more += ` ${key}="${attributeText(key, value)}"`;
  }
  const anchor = attributes['text-anchor'] ?? 'middle';
  const place = `x="${coordinate(x)}" y="${coordinate(y)}" text-anchor="${attributeText('text-anchor', anchor)}"`;
  return `<text ${place} stroke="none" fill="currentColor"${more}>${words(text)}</text>` as Svg;
}

/** Straight strokes, each from one place to another, as one path. */
export function strokes(
  lines: readonly (readonly [Coordinate, Coordinate, Coordinate, Coordinate])[],
  attributes: Attributes = {},
): Svg {
  let d = '';
  for (const [x1, y1, x2, y2] of lines)
    d += `M${coordinate(x1)} ${coordinate(y1)}L${coordinate(x2)} ${coordinate(y2)}`;
  return d === '' ? ('' as Svg) : element('path', { d, ...attributes });
}

/** So many decimal places have all coordinates: a thousandth of the smallest drawn step is more. */
const PLACES = 4;

const UNITS = 10 ** PLACES;

/** A coordinate as it is written: always rounded alike, so that what is in line has the same figures. */
export function coordinate(value: Coordinate): string {
  if (typeof value !== 'number') return unitsText(unitsOf(value));
  if (Number.isInteger(value)) return String(value);
  const units = value * UNITS;
  const whole = Math.round(units);
  // Near a tie only the decimal itself tells which way it is rounded.
  return Math.abs(units - whole) < 0.4999 && Math.abs(whole) < MOST_UNITS
    ? unitsText(whole)
    : plainNumber(value);
}

/** So many units of the last place; nought has no sign. */
function unitsText(units: number): string {
  const size = Math.abs(units);
  const whole = Math.floor(size / UNITS);
  const text = `${whole}${decimals(size - whole * UNITS)}`;
  return units < 0 ? `-${text}` : text;
}

const MOST_UNITS = 2 ** 50;
const DECIMALS: string[] = [''];

/** `.25` for 2500: each is written once and kept. */
function decimals(units: number): string {
  const kept = DECIMALS[units];
  if (kept !== undefined) return kept;
  const text = `.${String(units).padStart(PLACES, '0').replace(/0+$/, '')}`;
  DECIMALS[units] = text;
  return text;
}

function plainNumber(value: number): string {
  const text = Number.isFinite(value) ? value.toFixed(PLACES) : '0';
  const short = text.includes('.') ? text.replace(/\.?0+$/, '') : text;
  return short === '-0' ? '0' : short;
}

/** A place rounded as all coordinates are: whole steps to either side of it are rounded alike. */
export function placed(value: R.Rational): number {
  return unitsOf(value) / UNITS;
}

function unitsOf(value: R.Rational): number {
  return roundedShare(R.numerator(value), R.denominator(value));
}

/** top / bottom in units of the last place, a tie to the even one; with ordinary numbers where they count exactly. */
function roundedShare(top: bigint, bottom: bigint): number {
  const [size, parts] = [Number(top) * UNITS, Number(bottom)];
  return Math.abs(size) <= COUNTED && parts <= COUNTED
    ? roundedRatio(size, parts)
    : Number(roundedUnits(top, bottom, PLACES, 'half-even'));
}

/** Whole numbers up to this, and their sums, are counted exactly. */
const COUNTED = 2 ** 51;

/** top / bottom as a whole number, a tie to the even one; both whole and counted exactly, bottom positive. */
function roundedRatio(top: number, bottom: number): number {
  const rest = top % bottom;
  const past = rest < 0 ? rest + bottom : rest;
  const whole = (top - past) / bottom;
  const isUp = 2 * past > bottom || (2 * past === bottom && whole % 2 !== 0);
  return isUp ? whole + 1 : whole;
}

/** Places at equal distances: where the mark of each number stands, rounded as all coordinates are. */
export function evenly(first: R.Rational, step: R.Rational): (index: number) => number {
  const [a, b] = [R.denominator(first), R.denominator(step)];
  const [whole, start, each] = [a * b, R.numerator(first) * b, R.numerator(step) * a];
  const [parts, from, by] = [Number(whole), Number(start) * UNITS, Number(each) * UNITS];
  return index => {
    const units =
      Math.abs(from) + Math.abs(index * by) <= COUNTED && parts <= COUNTED
        ? roundedRatio(from + index * by, parts)
        : Number(roundedUnits(start + BigInt(index) * each, whole, PLACES, 'half-even'));
    return units / UNITS;
  };
}

/** A place that a root or an angle gave, as a coordinate that other exact ones can be reckoned with. */
export function exactly(value: number): R.Rational {
  return R.rational(plainNumber(value));
}

/**
 * Text without what would end it or is not allowed in XML; marks of the writing direction are left out, for they would
 * turn the words beside them.
 */
export function escaped(text: string): string {
  if (HARMLESS.test(text)) return text;
  return [...text]
    .filter(sign => isAllowed(sign.codePointAt(0) ?? 0))
    .join('')
    .replace(/&/g, '&amp;')
    .replace(/</g, '&lt;')
    .replace(/>/g, '&gt;')
    .replace(/"/g, '&quot;')
    .replace(/'/g, '&#39;');
}

/** What a path or a plain word is made of: nothing in it needs to be looked at letter by letter. */
const HARMLESS = /^[\w .,:;()=+%/-]*$/;

function isAllowed(code: number): boolean {
  if (code < 0x20 || (0x7f <= code && code <= 0x9f)) return code === 0x9 || code === 0xa;
  if (0xd800 <= code && code <= 0xdfff) return false;
  if ((0x200b <= code && code <= 0x200f) || (0x2028 <= code && code <= 0x202e)) return false;
  if (0x2066 <= code && code <= 0x206f) return false;
  return code !== 0xfeff && code !== 0x061c && code !== 0xfffe && code !== 0xffff;
}

/** A short name for a content, so that ids differ between the figures of a page: FNV-1a, 32 bits, from piece to piece. */
export function contentName(...pieces: readonly string[]): string {
  let hash = 0x811c9dc5;
  for (const piece of pieces) {
    for (let index = 0; index < piece.length; index++) {
      hash = Math.imul(hash ^ piece.charCodeAt(index), 0x01000193);
    }
  }
  return (hash >>> 0).toString(36);
}
