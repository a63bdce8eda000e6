import { all, create } from 'mathjs';
import { describe, expect, test } from 'vitest';
import { BASES } from '../../server/src/engine/dimension.ts';
import * as R from '../../server/src/engine/rational.ts';
import { PREFIXES, UNIT_ENTRIES } from '../../server/src/engine/unit-table.ts';

/** Another library's table of units, and what it calls those that it spells otherwise. */
const math = create(all!, {});
const OTHER_NAMES: Readonly<Record<string, string>> = {
  deg: 'deg',
  lb: 'lbm',
  L: 'L',
  t: 'tonne',
  h: 'hour',
  min: 'minute',
  dyn: 'dyn',
  Torr: 'torr',
  cmHg: '10 mmHg',
};
/** What the other library does not have, or has with fewer figures. */
const NOT_THERE = new Set([
  'degC',
  'sr',
  'Bq',
  'Gy',
  'Sv',
  'kat',
  'lm',
  'lx',
  '%',
  'mmHg',
  'cmHg',
  'Torr',
  'eV',
  'poise',
]);
const BASE_NAMES = ['m', 'kg', 's', 'A', 'K', 'K', 'mol', 'cd', 'deg'];

describe('the table of units', () => {
  test.each(
    UNIT_ENTRIES.filter(entry => !NOT_THERE.has(entry.symbol)).map(entry => [entry.symbol, entry] as const),
  )('%s is as large as another library has it', (symbol, entry) => {
    const base = BASES.map((name, i) => `${BASE_NAMES[i]}^${entry.dimension[name]}`).join(' ');
    const other = math.unit(
      /^\d/.test(OTHER_NAMES[symbol] ?? '') ? OTHER_NAMES[symbol]! : `1 ${OTHER_NAMES[symbol] ?? symbol}`,
    );
    const number = other.toNumber(base);
    expect((R.toNumber(R.rational(entry.factor)) * (180 / Math.PI) ** entry.radians) / number).toBeCloseTo(
      1,
      12,
    );
  });

  test.each([
    // NIST SP 811 (2008), appendix B.8: from memory.
    ['atm', '101325'],
    ['bar', '100000'],
    ['ft', '0.3048'],
    ['lb', '0.45359237'],
    ['dyn', '1e-5'],
    ['kgf', '9.80665'],
    ['poise', '0.1'],
    ['erg', '1e-7'],
    // Abramowitz & Stegun, AMS 55, table 2.5: one inch is 0.0254 m exactly.
    ['in', '0.0254'],
    // SI Brochure, 9th edition, table 8: from memory.
    ['eV', '1.602176634e-19'],
    ['t', '1000'],
    ['L', '0.001'],
  ])('%s is exactly %s base units', (symbol, factor) => {
    const entry = UNIT_ENTRIES.find(candidate => candidate.symbol === symbol)!;
    expect(R.toFractionText(R.rational(entry.factor))).toBe(R.toFractionText(R.rational(factor)));
    expect(entry.radians).toBe(0);
  });

  test('the millimetre of mercury is that of 13 595.1 kg/m^3 and 9.80665 m/s^2, the torr a 760th of an atmosphere', () => {
    // BS 350-1: from memory.
    const factor = (symbol: string): R.Rational =>
      R.rational(UNIT_ENTRIES.find(entry => entry.symbol === symbol)!.factor);
    const column = R.multiply(R.multiply(R.rational('13595.1'), R.rational('9.80665')), R.rational('0.001'));
    expect(R.equals(factor('mmHg'), column)).toBe(true);
    expect(R.equals(R.multiply(factor('Torr'), R.rational(760)), factor('atm'))).toBe(true);
    expect(R.equals(factor('cmHg'), R.multiply(R.TEN, factor('mmHg')))).toBe(true);
  });

  test('no spelling stands for two units', () => {
    const spellings = UNIT_ENTRIES.flatMap(entry => [...new Set([entry.symbol, ...entry.also])]);
    expect(new Set(spellings).size).toBe(spellings.length);
    const words = UNIT_ENTRIES.flatMap(entry => entry.words);
    expect(new Set(words).size).toBe(words.length);
    for (const word of words) expect(word).toBe(word.toLowerCase());
  });

  test('all twenty-four prefixes of the SI, a thousandfold apart', () => {
    expect(PREFIXES.length).toBe(24);
    const large = PREFIXES.filter(prefix => Math.abs(prefix.exponent) >= 3).map(prefix => prefix.exponent);
    const thousands = Array.from({ length: 10 }, (_, i) => 3 * (i + 1));
    expect(large).toEqual([...[...thousands].reverse(), ...thousands.map(n => -n)]);
  });
});
