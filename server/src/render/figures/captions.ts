import { toSignificantText } from '../../engine/decimal-text.ts';
import * as R from '../../engine/rational.ts';
import type { FigureSetting } from './setting.ts';
import { exactly } from './svg.ts';

/** What a figure shows, in one line: `vernier calipers, axle-sleeve, outside`; names as the note has them. */
export function titleOf(setting: FigureSetting): string {
  const { instrument, name, label } = setting;
  const parts = [instrument ?? USUAL[setting.family], name, label].filter(part => part !== null);
  return parts.map(part => part.slice(0, LONGEST_NAME)).join(', ');
}

const USUAL: Readonly<Record<FigureSetting['family'], string>> = {
  vernier: 'main scale and vernier',
  arc: 'arc and vernier',
  screw: 'screw gauge',
  disc: 'spherometer',
  dial: 'dial gauge',
};

/** Longer names are no names. */
const LONGEST_NAME = 80;

/** How wide a text comes out at most, about; fonts differ, and the widest of the usual ones counts. */
export function textWidth(text: string, size = 13): number {
  let hundredths = 0;
  for (const sign of text) hundredths += signWidth(sign);
  return (hundredths * size) / 100;
}

/** In hundredths of the size of the letters. */
function signWidth(sign: string): number {
  if (" .,:;'′″|!()ijlft".includes(sign)) return 40;
  if ('mwMW=×−+±<>%@'.includes(sign)) return 92;
  return sign <= 'ÿ' ? 64 : 100;
}

/** The widest of some lines of text. */
export function widestOf(lines: readonly string[], size?: number): number {
  return Math.max(0, ...lines.map(line => textWidth(line, size)));
}

/** How much paper lines of text take that begin at a place; none where there are none. */
export function paperFor(lines: readonly string[], x: number): number {
  return lines.length === 0 ? 0 : Math.ceil(x + widestOf(lines)) + 20;
}

/** `3.4 : 1`, how much larger than life so many units of the drawing to a unit of the scale are; null for angles. */
export function magnification(perUnit: R.Rational, millimetres: R.Rational | null): string | null {
  const natural = millimetres === null ? null : R.divide(R.multiply(perUnit, MILLIMETRES), millimetres);
  if (natural === null) return null;
  return R.compare(natural, R.ONE) >= 0
    ? `${brief(natural)} : 1`
    : `1 : ${brief(R.reciprocal(natural) ?? R.ONE)}`;
}

/** A unit of a drawing is a ninety-sixth of an inch. Source: CSS Values and Units, "px". */
const MILLIMETRES = R.rational(254, 960n);

/** About so many times, with two figures. */
export function brief(times: R.Rational): string {
  return R.compare(times, R.TEN) >= 0
    ? R.toFractionText(R.floor(R.add(times, R.HALF)))
    : toSignificantText(times, 2).replace(/\.0$/, '');
}

/** What a scale is divided in, where its unit alone would read as another word: `main scale in inches`. */
export function unitName(unit: string): string {
  return unit === '°' ? 'degrees' : unit === 'in' ? 'inches' : unit;
}

/** Joins what is known by semicolons. */
export function listed(parts: readonly (string | null)[]): string {
  return parts.filter(part => part !== null && part !== '').join('; ');
}

/** What a drawing that gives the answer away tells of its vernier: what is in line, and how the reading follows. */
export function toldOfVernier({ words, reading }: FigureSetting): readonly (string | null)[] {
  const [pair] = reading.inLine;
  return [
    pair === undefined
      ? reading.between === null
        ? null
        : `lines ${reading.between} and ${reading.between + 1} are equally off their marks`
      : `line ${pair.line} of the vernier is in line with a mark`,
    words.coarse,
    words.fine === '' ? null : `the vernier adds ${words.fine}`,
    words.observed,
    words.zeroError,
    words.corrected,
  ];
}

/** So many units of the drawing to a division, cut to a thousandth so that all sizes stay short. */
export function cutTo(value: number): R.Rational {
  return exactly(Math.floor(value * 1000) / 1000);
}
