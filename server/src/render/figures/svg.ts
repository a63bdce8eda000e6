import { toDecimalText } from '../../engine/decimal-text.ts';
import { roundedUnits } from '../../engine/integer.ts';
import * as R from '../../engine/rational.ts';

/** Markup that is whole and escaped; made by the functions of this file only. */
export type Svg = string & { readonly svg: true };

/** A coordinate: exact where it says something, a number of the layout elsewhere. */
export type Coordinate = R.Rational | number;

export type Attributes = Readonly<Record<string, string | Coordinate | null>>;

/** One element with its attributes and what stands in it; an attribute that is null is left out. */
export function element(name: string, attributes: Attributes, ...inside: readonly Svg[]): Svg {
  const written = Object.entries(attributes)
    .filter(([, value]) => value !== null)
    .map(([key, value]) => ` ${key}="${typeof value === 'string' ? escaped(value) : coordinate(value!)}"`)
    .join('');
  const content = inside.join('');
  return (content === '' ? `<${name}${written}/>` : `<${name}${written}>${content}</${name}>`) as Svg;
}

/** Words of any origin as text that stands for itself. */
export function words(text: string): Svg {
  return escaped(text) as Svg;
}

/** Several pieces behind one another. */
export function together(...pieces: readonly Svg[]): Svg {
  return pieces.join('') as Svg;
}

/** A text at a place; `anchor` as in SVG, in the middle unless said otherwise. */
export function label(x: Coordinate, y: Coordinate, text: string, attributes: Attributes = {}): Svg {
  return element(
    'text',
    { x, y, 'text-anchor': 'middle', stroke: 'none', fill: 'currentColor', ...attributes },
    words(text),
  );
}

/** Straight strokes, each from one place to another, as one path. */
export function strokes(
  lines: readonly (readonly [Coordinate, Coordinate, Coordinate, Coordinate])[],
  attributes: Attributes = {},
): Svg {
  const d = lines
    .map(([x1, y1, x2, y2]) => `M${coordinate(x1)} ${coordinate(y1)}L${coordinate(x2)} ${coordinate(y2)}`)
    .join('');
  return d === '' ? ('' as Svg) : element('path', { d, ...attributes });
}

/** So many decimal places have all coordinates: a thousandth of the smallest drawn step is more. */
const PLACES = 4;

/** A coordinate as it is written: always rounded alike, so that what is in line has the same figures. */
export function coordinate(value: Coordinate): string {
  const text = typeof value === 'number' ? plainNumber(value) : toDecimalText(value, PLACES);
  return text.includes('.') ? text.replace(/\.?0+$/, '') : text;
}

function plainNumber(value: number): string {
  const text = Number.isFinite(value) ? value.toFixed(PLACES) : '0';
  return /^-0\.?0*$/.test(text) ? '0' : text;
}

/** Places at equal distances: where the mark of each number stands, rounded as all coordinates are. */
export function evenly(first: R.Rational, step: R.Rational): (index: number) => number {
  const [a, b] = [R.denominator(first), R.denominator(step)];
  const whole = a * b;
  const start = R.numerator(first) * b;
  const each = R.numerator(step) * a;
  return index =>
    Number(roundedUnits(start + BigInt(index) * each, whole, PLACES, 'half-even')) / 10 ** PLACES;
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

/** A short name for a content, so that ids differ between the figures of a page: FNV-1a, 32 bits. */
export function contentName(content: string): string {
  let hash = 0x811c9dc5;
  for (let index = 0; index < content.length; index++) {
    hash = Math.imul(hash ^ content.charCodeAt(index), 0x01000193) >>> 0;
  }
  return hash.toString(36);
}
