import { combined, type Dimension, isPlain, NO_DIMENSION, raised, sameDimension } from './dimension.ts';
import { PI_50 } from './elementary.ts';
import * as R from './rational.ts';
import { realPower } from './root.ts';
import { PREFIXES, type Prefix, TYPED_SPELLINGS, UNIT_ENTRIES, type UnitEntry } from './unit-table.ts';

/** One atomic unit to a power, as part of a compound one: the `cm^-3` of `g/cm^3`. */
export interface UnitPart {
  readonly symbol: string;
  readonly shown: string;
  readonly dimension: Dimension;
  readonly factor: R.Rational;
  readonly exact: boolean;
  readonly exponent: number;
}

/**
 * What a number is measured in: `mm`, `g/cm^3`, `°`.
 *
 * `factor` is one unit in base units (m kg s A K °C mol cd and the degree of angle), exact unless π is in it.
 */
export interface Unit {
  /** As programs spell it: `mm`, `um`, `deg`, `g/cm^3`; empty for a plain number. */
  readonly symbol: string;
  readonly dimension: Dimension;
  readonly factor: R.Rational;
  readonly exact: boolean;
  readonly parts: readonly UnitPart[];
}

const LONGEST_WORD = 32;
const MOST_CACHED = 2000;
const FIGURES = 50;
/** One radian in degrees, 180/π. */
const RADIAN = R.rationalRoundFigures(R.divide(R.rational(180), PI_50) ?? R.ONE, FIGURES);

export const DIMENSIONLESS: Unit = {
  symbol: '',
  dimension: NO_DIMENSION,
  factor: R.ONE,
  exact: true,
  parts: [],
};

/**
 * The unit that one word means, as people type it: `mm`, `cms`, `µm`, `°`, `inches`, `Kilograms`.
 *
 * Symbols count letter for letter, written-out words in any case. Null for any other word.
 */
export function unitWord(word: string): Unit | null {
  const known = cache.get(word);
  if (known !== undefined) return known;
  if (word.length > LONGEST_WORD) return null;
  const unit = symbolUnit(typedSpellings.get(word) ?? word) ?? writtenUnit(word.toLowerCase()) ?? cubic(word);
  if (cache.size < MOST_CACHED) cache.set(word, unit);
  return unit;
}

/** The unit of a product, spelled as it stands: N by m is `N m`, cm by cm `cm^2`. */
export function multiplyUnits(a: Unit, b: Unit): Unit {
  return compound(mergedParts(a.parts, b.parts, 1));
}

/** The unit of a quotient: g by cm^3 is `g/cm^3`. */
export function divideUnits(a: Unit, b: Unit): Unit {
  return compound(mergedParts(a.parts, b.parts, -1));
}

/** A unit to a power: cm to the third is `cm^3`; null where a power would be neither whole nor a half, or absurdly high. */
export function powerUnit(a: Unit, exponent: R.Rational): Unit | null {
  const times = R.toNumber(exponent);
  if (raised(a.dimension, times) === null) return null;
  const parts = a.parts.map(part => ({ ...part, exponent: part.exponent * times }));
  const sensible = parts.every(part => Number.isInteger(part.exponent * 2) && Math.abs(part.exponent) <= 400);
  return sensible ? compound(parts.filter(part => part.exponent !== 0)) : null;
}

/** How programs get it: `mm`, `um`, `deg`, `arcmin`, `g/cm^3`; empty for a plain number. */
export function unitText(u: Unit): string {
  return u.symbol;
}

/** How people see it: `mm`, `µm`, `°`, `′`, `g/cm^3`; empty for a plain number. */
export function unitShown(u: Unit): string {
  return spelled(u.parts, part => part.shown);
}

/** A plain unit to show a quantity of that kind in, when nothing says which: m, kg/m^3, Pa, °. */
export function likelyBaseUnits(of: Dimension): Unit {
  for (const word of NAMED_UNITS) {
    const named = unitWord(word);
    if (named !== null && sameDimension(named.dimension, of)) return named;
  }
  const parts: UnitPart[] = [];
  for (const [base, word] of BASE_UNITS) {
    const part = unitWord(word)?.parts[0];
    if (of[base] !== 0 && part !== undefined) parts.push({ ...part, exponent: of[base] });
  }
  return compound(parts);
}

/**
 * A unit to show a product in, when one factor is in a and the other in b to the power `times`.
 *
 * What is alike is brought together, cm by mm gives cm^2 and g by kg nothing; so its factor need not be a's times b's.
 */
export function jointUnit(a: Unit, b: Unit, times: 1 | -1): Unit {
  const brought = b.parts.map(part => {
    const twin = a.parts.find(other => sameDimension(other.dimension, part.dimension));
    return twin === undefined ? part : { ...twin, exponent: part.exponent };
  });
  return compound(mergedParts(a.parts, brought, times).filter(part => !isPlain(part.dimension)));
}

/** The unit with its angles left out, for an arc's length out of radius and angle. */
export function withoutAngles(a: Unit): Unit {
  return compound(a.parts.filter(part => part.dimension.angle === 0));
}

function mergedParts(a: readonly UnitPart[], b: readonly UnitPart[], times: 1 | -1): UnitPart[] {
  const merged = [...a];
  for (const part of b) {
    const index = merged.findIndex(other => other.symbol === part.symbol);
    const exponent = (merged[index]?.exponent ?? 0) + times * part.exponent;
    if (index >= 0) merged[index] = { ...part, exponent };
    else merged.push({ ...part, exponent });
  }
  return merged.filter(part => part.exponent !== 0);
}

function compound(parts: readonly UnitPart[]): Unit {
  let kind = NO_DIMENSION;
  let factor = R.ONE;
  let exact = true;
  for (const part of parts) {
    kind = combined(kind, part.dimension, part.exponent);
    const whole = R.powerInteger(part.factor, part.exponent);
    const carried =
      whole === null ? realPower(part.factor, halves(part.exponent)) : { value: whole, exact: true };
    factor = R.multiply(factor, carried?.value ?? R.ONE);
    exact = exact && part.exact && (carried?.exact ?? true);
  }
  if (!exact) factor = R.rationalRoundFigures(factor, FIGURES);
  return { symbol: spelled(parts, part => part.symbol), dimension: kind, factor, exact, parts };
}

function halves(exponent: number): R.Rational {
  return R.rational(exponent * 2, 2);
}

/** `g/cm^3` where one unit is below the line, `J kg^-1 K^-1` where several are, since `J/kg K` would have two readings. */
function spelled(parts: readonly UnitPart[], word: (part: UnitPart) => string): string {
  const above = parts.filter(part => part.exponent > 0);
  const below = parts.filter(part => part.exponent < 0);
  const powered = (part: UnitPart, exponent: number): string =>
    exponent === 1
      ? word(part)
      : `${word(part)}^${Number.isInteger(exponent) ? exponent : `(${exponent * 2}/2)`}`;
  const first = below[0];
  if (above.length > 0 && below.length === 1 && first !== undefined) {
    return `${above.map(part => powered(part, part.exponent)).join(' ')}/${powered(first, -first.exponent)}`;
  }
  return [...above, ...below].map(part => powered(part, part.exponent)).join(' ');
}

const cache = new Map<string, Unit | null>();
const symbols = new Map<string, UnitEntry>();
const words = new Map<string, UnitEntry>();
for (const entry of UNIT_ENTRIES) {
  for (const symbol of [entry.symbol, ...entry.also]) symbols.set(symbol, entry);
  for (const word of entry.words) words.set(word, entry);
}
const typedSpellings = new Map<string, string>(TYPED_SPELLINGS);
const NAMED_UNITS = ['N', 'Pa', 'J', 'W', 'C', 'V', 'ohm', 'Hz'];
const BASE_UNITS: readonly (readonly [keyof Dimension, string])[] = [
  ['mass', 'kg'],
  ['length', 'm'],
  ['time', 's'],
  ['current', 'A'],
  ['temperature', 'K'],
  ['celsius', 'degC'],
  ['amount', 'mol'],
  ['luminosity', 'cd'],
  ['angle', 'deg'],
];

function symbolUnit(word: string): Unit | null {
  const plain = symbols.get(word);
  if (plain !== undefined && plain.prefixes !== 'prefixed-only') return atomic(plain, null);
  for (const prefix of PREFIXES) {
    const rest = afterPrefix(word, prefix);
    const entry = rest === null ? undefined : symbols.get(rest);
    if (entry !== undefined && takes(entry, prefix)) return atomic(entry, prefix);
  }
  return null;
}

/** cc is a cubic centimetre: a compound unit in one word. */
function cubic(word: string): Unit | null {
  const centimetre = word === 'cc' ? symbolUnit('cm') : null;
  return centimetre === null ? null : powerUnit(centimetre, R.rational(3));
}

function afterPrefix(word: string, prefix: Prefix): string | null {
  if (word.startsWith(prefix.symbol)) return word.slice(prefix.symbol.length);
  // Micro is typed as u, as the micro sign U+00B5 and as the Greek letter U+03BC.
  return prefix.symbol === 'u' && (word.startsWith('µ') || word.startsWith('μ')) ? word.slice(1) : null;
}

function takes(entry: UnitEntry, prefix: Prefix): boolean {
  return entry.prefixes === 'all' || (entry.prefixes !== 'none' && Math.abs(prefix.exponent) >= 3);
}

function writtenUnit(word: string): Unit | null {
  const found = wordEntry(word);
  if (found !== undefined) return atomic(found, null);
  for (const prefix of PREFIXES) {
    const entry = word.startsWith(prefix.word) ? wordEntry(word.slice(prefix.word.length)) : undefined;
    if (entry !== undefined && takes(entry, prefix)) return atomic(entry, prefix);
  }
  return null;
}

function wordEntry(word: string): UnitEntry | undefined {
  return words.get(word) ?? (word.endsWith('s') ? words.get(word.slice(0, -1)) : undefined);
}

/** Prefixed symbols that are the spellings of an entry's own (`gm`, `mtr`) take the entry's symbol, not what was typed. */
function atomic(entry: UnitEntry, prefix: Prefix | null): Unit {
  let factor = R.rational(entry.factor);
  if (prefix !== null) factor = R.multiply(factor, R.powerInteger(R.TEN, prefix.exponent) ?? R.ONE);
  for (let i = 0; i < entry.radians; i += 1) factor = R.multiply(factor, RADIAN);
  if (entry.radians > 0) factor = R.rationalRoundFigures(factor, FIGURES);
  const part: UnitPart = {
    symbol: (prefix?.symbol ?? '') + entry.symbol,
    shown: (prefix?.shown ?? '') + entry.shown,
    dimension: entry.dimension,
    factor,
    exact: entry.radians === 0,
    exponent: 1,
  };
  return {
    symbol: part.symbol,
    dimension: part.dimension,
    factor: part.factor,
    exact: part.exact,
    parts: [part],
  };
}
