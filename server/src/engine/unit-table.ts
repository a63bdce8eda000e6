import { type Dimension, dimension, NO_DIMENSION } from './dimension.ts';

/** One unit of the table: its spellings, what it is, and how many base units (m kg s A K °C mol cd °) make one. */
export interface UnitEntry {
  /** As programs and people without a Greek keyboard spell it: `um`, `deg`, `ohm`. */
  readonly symbol: string;
  /** As it is shown: `µm`, `°`, `Ω`. */
  readonly shown: string;
  /** Symbols that are read as it, letter for letter. */
  readonly also: readonly string[];
  /** Words that are read as it in any case, with an s or without. */
  readonly words: readonly string[];
  readonly dimension: Dimension;
  /** A fraction or a decimal, exact. */
  readonly factor: string;
  /** How many times 180/π, the degrees in a radian, comes on top of the factor; 0 for all that is exact. */
  readonly radians: 0 | 1 | 2;
  readonly prefixes: 'none' | 'all' | 'thousands' | 'prefixed-only';
}

export interface Prefix {
  readonly symbol: string;
  readonly shown: string;
  readonly word: string;
  readonly exponent: number;
}

/** The prefixes of the SI (SI Brochure, 9th edition and resolution 3 of the 27th CGPM). */
export const PREFIXES: readonly Prefix[] = [
  ['Q', 'quetta', 30],
  ['R', 'ronna', 27],
  ['Y', 'yotta', 24],
  ['Z', 'zetta', 21],
  ['E', 'exa', 18],
  ['P', 'peta', 15],
  ['T', 'tera', 12],
  ['G', 'giga', 9],
  ['M', 'mega', 6],
  ['k', 'kilo', 3],
  ['h', 'hecto', 2],
  ['da', 'deca', 1],
  ['d', 'deci', -1],
  ['c', 'centi', -2],
  ['m', 'milli', -3],
  ['u', 'micro', -6],
  ['n', 'nano', -9],
  ['p', 'pico', -12],
  ['f', 'femto', -15],
  ['a', 'atto', -18],
  ['z', 'zepto', -21],
  ['y', 'yocto', -24],
  ['r', 'ronto', -27],
  ['q', 'quecto', -30],
].map(([symbol, word, exponent]) => ({
  symbol: String(symbol),
  shown: symbol === 'u' ? 'µ' : String(symbol),
  word: String(word),
  exponent: Number(exponent),
}));

const LENGTH = dimension({ length: 1 });
const VOLUME = dimension({ length: 3 });
const MASS = dimension({ mass: 1 });
const TIME = dimension({ time: 1 });
const ANGLE = dimension({ angle: 1 });
const FORCE = dimension({ mass: 1, length: 1, time: -2 });
const PRESSURE = dimension({ mass: 1, length: -1, time: -2 });
const ENERGY = dimension({ mass: 1, length: 2, time: -2 });
const DOSE = dimension({ length: 2, time: -2 });

function entry(
  symbol: string,
  kind: Dimension,
  factor: string,
  rest: Partial<Pick<UnitEntry, 'shown' | 'also' | 'words' | 'prefixes' | 'radians'>> = {},
): UnitEntry {
  const plain = { shown: symbol, also: [], words: [], prefixes: 'none', radians: 0 } as const;
  return { symbol, dimension: kind, factor, ...plain, ...rest };
}

/**
 * The units that may stand after a number.
 *
 * SI base and derived units with their special names (SI Brochure, tables 2 and 4); inch, foot and pound by their
 * definitions of 1959; the rest as NIST SP 811, appendix B.8 has them. Bare S is the main scale division and bare l a
 * length in this trade, so siemens and litre do not take them.
 */
export const UNIT_ENTRIES: readonly UnitEntry[] = [
  entry('m', LENGTH, '1', { prefixes: 'all', words: ['metre', 'meter'], also: ['mtr'] }),
  entry('g', MASS, '1/1000', { prefixes: 'all', words: ['gram', 'gramme'], also: ['gm', 'gms'] }),
  entry('s', TIME, '1', { prefixes: 'all', words: ['second', 'sec'] }),
  entry('A', dimension({ current: 1 }), '1', { prefixes: 'thousands', words: ['ampere', 'amp'] }),
  entry('K', dimension({ temperature: 1 }), '1', { prefixes: 'thousands', words: ['kelvin'] }),
  entry('degC', dimension({ celsius: 1 }), '1', {
    shown: '°C',
    also: ['°C', 'ºC', '˚C', '℃'],
    words: ['celsius'],
  }),
  entry('mol', dimension({ amount: 1 }), '1', { prefixes: 'thousands', words: ['mole'] }),
  entry('cd', dimension({ luminosity: 1 }), '1', { prefixes: 'thousands', words: ['candela'] }),

  entry('deg', ANGLE, '1', { shown: '°', also: ['°', 'º', '˚'], words: ['degree', 'deg'] }),
  entry('arcmin', ANGLE, '1/60', { shown: '′', also: ['′', "'", '’', 'ʹ'], words: ['arcminute', 'arcmin'] }),
  entry('arcsec', ANGLE, '1/3600', {
    shown: '″',
    also: ['″', '"', '”', 'ʺ', "''", '′′', '’’'],
    words: ['arcsecond', 'arcsec'],
  }),
  entry('rad', ANGLE, '1', { prefixes: 'thousands', words: ['radian'], radians: 1 }),
  entry('sr', dimension({ angle: 2 }), '1', { words: ['steradian'], radians: 2 }),

  entry('in', LENGTH, '127/5000', { words: ['inch', 'inches'] }),
  entry('ft', LENGTH, '381/1250', { words: ['foot', 'feet'] }),
  entry('angstrom', LENGTH, '1/10000000000', { shown: 'Å', also: ['\u00C5', '\u212B'], words: ['angstrom'] }),
  entry('L', VOLUME, '1/1000', { prefixes: 'all', words: ['litre', 'liter'] }),
  entry('t', MASS, '1000', { words: ['tonne'] }),
  entry('lb', MASS, '45359237/100000000', { also: ['lbs'], words: ['pound'] }),
  entry('min', TIME, '60', { also: ['mins'], words: ['minute', 'min'] }),
  entry('h', TIME, '3600', { also: ['hr', 'hrs'], words: ['hour'] }),
  entry('%', NO_DIMENSION, '1/100', { words: ['percent'] }),

  entry('Hz', dimension({ time: -1 }), '1', { prefixes: 'thousands', words: ['hertz'] }),
  entry('N', FORCE, '1', { prefixes: 'thousands', words: ['newton'] }),
  entry('dyn', FORCE, '1/100000', { words: ['dyne'] }),
  entry('kgf', FORCE, '9.80665'),
  entry('poise', dimension({ mass: 1, length: -1, time: -1 }), '1/10', { words: ['poise'] }),
  entry('Pa', PRESSURE, '1', { prefixes: 'all', words: ['pascal'] }),
  entry('bar', PRESSURE, '100000', { prefixes: 'thousands', words: ['bar'] }),
  entry('atm', PRESSURE, '101325', { words: ['atm', 'atmosphere'] }),
  entry('mmHg', PRESSURE, '133.322387415', {}),
  entry('cmHg', PRESSURE, '1333.22387415', {}),
  entry('Torr', PRESSURE, '20265/152', { words: ['torr'] }),
  entry('J', ENERGY, '1', { prefixes: 'thousands', words: ['joule'] }),
  entry('erg', ENERGY, '1/10000000', { words: ['erg'] }),
  entry('eV', ENERGY, '1.602176634e-19', { prefixes: 'thousands', words: ['electronvolt'] }),
  entry('W', dimension({ mass: 1, length: 2, time: -3 }), '1', { prefixes: 'thousands', words: ['watt'] }),
  entry('C', dimension({ current: 1, time: 1 }), '1', { prefixes: 'thousands', words: ['coulomb'] }),
  entry('V', dimension({ mass: 1, length: 2, time: -3, current: -1 }), '1', {
    prefixes: 'thousands',
    words: ['volt'],
  }),
  entry('F', dimension({ mass: -1, length: -2, time: 4, current: 2 }), '1', {
    prefixes: 'thousands',
    words: ['farad'],
  }),
  entry('ohm', dimension({ mass: 1, length: 2, time: -3, current: -2 }), '1', {
    shown: 'Ω',
    also: ['\u03A9', '\u2126'],
    prefixes: 'thousands',
    words: ['ohm'],
  }),
  entry('S', dimension({ mass: -1, length: -2, time: 3, current: 2 }), '1', {
    prefixes: 'prefixed-only',
    words: ['siemens'],
  }),
  entry('Wb', dimension({ mass: 1, length: 2, time: -2, current: -1 }), '1', {
    prefixes: 'thousands',
    words: ['weber'],
  }),
  entry('T', dimension({ mass: 1, time: -2, current: -1 }), '1', { prefixes: 'thousands', words: ['tesla'] }),
  entry('H', dimension({ mass: 1, length: 2, time: -2, current: -2 }), '1', {
    prefixes: 'thousands',
    words: ['henry', 'henries'],
  }),
  entry('Bq', dimension({ time: -1 }), '1', { prefixes: 'thousands', words: ['becquerel'] }),
  entry('Gy', DOSE, '1', { prefixes: 'thousands', words: ['gray'] }),
  entry('Sv', DOSE, '1', { prefixes: 'thousands', words: ['sievert'] }),
  entry('kat', dimension({ amount: 1, time: -1 }), '1', { prefixes: 'thousands', words: ['katal'] }),
  entry('lm', dimension({ luminosity: 1, angle: 2 }), '1', { words: ['lumen'], radians: 2 }),
  entry('lx', dimension({ luminosity: 1, angle: 2, length: -2 }), '1', { words: ['lux'], radians: 2 }),
];

/** Spellings that people really type and no rule gives: what stands left is read as what stands right. */
export const TYPED_SPELLINGS: readonly (readonly [string, string])[] = [
  ['cms', 'cm'],
  ['mms', 'mm'],
  ['kms', 'km'],
  ['kgs', 'kg'],
  ['Kg', 'kg'],
  ['Kgs', 'kg'],
  ['KG', 'kg'],
  ['ml', 'mL'],
  ['micron', 'um'],
  ['microns', 'um'],
];
