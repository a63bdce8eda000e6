import { rational } from '../engine/rational.ts';
import { divideUnits, multiplyUnits, powerUnit, type Unit, unitWord } from '../engine/unit.ts';
import { isOperator, type ParserState } from './parser-state.ts';
import type { Token } from './syntax.ts';

/** A unit and the index of the token after it. */
export interface UnitRead {
  readonly unit: Unit;
  readonly to: number;
  /** Words in it that names are called, too. */
  readonly bothWays: readonly string[];
  /** The token of a unit that stands beside one below the line, the K of `J/kg K`: above or below is for the writer to say. */
  readonly doubtful: number | null;
}

/**
 * Reads the unit that begins at a token, as far as it goes: `mm`, `g/cm^3`, `N m`, `m s⁻²`, `°`, `J/(kg K)`.
 *
 *     > | 1.06 g / 0.136 cm^3
 *              ^                   the unit of 1.06
 *                ^                 a division: a number follows
 *                        ^^^^      the unit of 0.136
 *
 * Null where no unit stands. Where a word is a unit as well as a name, the state says which is meant.
 */
export function readUnit(state: ParserState, at: number): UnitRead | null {
  if (!state.unitsAllowed) return null;
  const { tokens } = state;
  if (isOperator(tokens[at], '[')) {
    const inside = readUnit(state, at + 1);
    return inside !== null && isOperator(tokens[inside.to], ']') ? { ...inside, to: inside.to + 1 } : null;
  }
  let read = readPowered(state, at, 'first') ?? readTypesetQuotient(state, at);
  if (read === null) return null;
  let isBelow = false;
  for (;;) {
    const next: UnitRead | null = readNext(state, read);
    if (next === null) return read;
    const sign: Token | undefined = tokens[read.to];
    const isBeside: boolean = sign?.kind !== 'operator';
    const isName: boolean = isBeside && next.bothWays.length > read.bothWays.length;
    read = isBelow && isBeside && !isName && next.doubtful === null ? { ...next, doubtful: read.to } : next;
    isBelow ||= isOperator(sign, '/');
  }
}

/** Goes on with one more unit behind a space, a `×` or a `/`. */
function readNext(state: ParserState, read: UnitRead): UnitRead | null {
  const sign = state.tokens[read.to];
  if (isOperator(sign, '/')) {
    const under = readPowered(state, read.to + 1, 'under') ?? readBracketed(state, read.to + 1);
    return under === null ? null : joined(read, under, divideUnits);
  }
  const isProduct = isOperator(sign, '×', '·') || isUnitHyphen(state.tokens, read.to);
  const from = isProduct ? read.to + 1 : read.to;
  // `9.81 m/s^2 × h` with a height h is a product with it.
  if (isProduct && state.tokens[from]?.spaced === true && isName(state, from)) return null;
  const beside = readPowered(state, from, 'beside');
  return beside === null ? null : joined(read, beside, multiplyUnits);
}

/** `12 N-m`, `Ω-m`: a hyphen between two units, where a minus has a space. */
export function isUnitHyphen(tokens: readonly Token[], at: number): boolean {
  const [before, sign, after] = [tokens[at - 1], tokens[at], tokens[at + 1]];
  if (!isOperator(sign, '-') || sign?.spaced === true || after?.spaced === true) return false;
  return (
    before?.kind === 'word' &&
    after?.kind === 'word' &&
    unitOf(before.text) !== null &&
    unitOf(after.text) !== null
  );
}

/** `((m)/(s^2))`, as `\frac{m}{s^2}` arrives. */
function readTypesetQuotient(state: ParserState, at: number): UnitRead | null {
  if (!isOperator(state.tokens[at], '(')) return null;
  const above = readBracketed(state, at + 1);
  if (above === null || !isOperator(state.tokens[above.to], '/')) return null;
  const below = readBracketed(state, above.to + 1);
  if (below === null || !isOperator(state.tokens[below.to], ')')) return null;
  const quotient = joined(above, below, divideUnits);
  return { ...quotient, to: below.to + 1 };
}

/** `(kg K)` below the line. */
function readBracketed(state: ParserState, at: number): UnitRead | null {
  if (!isOperator(state.tokens[at], '(')) return null;
  let read = readPowered(state, at + 1, 'first');
  while (read !== null && !isOperator(state.tokens[read.to], ')')) {
    const from: number = isOperator(state.tokens[read.to], '×', '·') ? read.to + 1 : read.to;
    const beside = readPowered(state, from, 'beside');
    read = beside === null ? null : joined(read, beside, multiplyUnits);
  }
  return read === null ? null : { ...read, to: read.to + 1 };
}

function joined(a: UnitRead, b: UnitRead, join: (a: Unit, b: Unit) => Unit): UnitRead {
  return {
    unit: join(a.unit, b.unit),
    to: b.to,
    bothWays: [...a.bothWays, ...b.bothWays],
    doubtful: a.doubtful ?? b.doubtful,
  };
}

/** A unit with its exponent: `cm^3`, `s^-2`, `m²`. Powers that no unit has are left to the caller. */
function readPowered(state: ParserState, at: number, place: 'first' | 'beside' | 'under'): UnitRead | null {
  const atom = readAtom(state, at, place);
  if (atom === null) return null;
  const exponent = wholeExponent(state.tokens, atom.to);
  if (exponent === null || Math.abs(exponent.value) > LARGEST_UNIT_EXPONENT) return atom;
  const unit = powerUnit(atom.unit, rational(exponent.value));
  return unit === null ? atom : { ...atom, unit, to: exponent.to };
}

const LARGEST_UNIT_EXPONENT = 12;

/** `^2`, `^-2`, `^(-2)` or raised digits: a whole exponent, and the index of the token after it. */
export function wholeExponent(tokens: readonly Token[], at: number): { value: number; to: number } | null {
  const token = tokens[at];
  if (token?.kind === 'superscript') return { value: wholeNumber(token.text), to: at + 1 };
  if (!isOperator(token, '^')) return null;
  const bracketed = isOperator(tokens[at + 1], '(');
  let next = bracketed ? at + 2 : at + 1;
  const negative = isOperator(tokens[next], '-');
  if (negative || isOperator(tokens[next], '+')) next += 1;
  const number = tokens[next];
  if (number?.kind !== 'number' || !/^[0-9]+$/.test(number.text)) return null;
  if (bracketed && !isOperator(tokens[next + 1], ')')) return null;
  const value = wholeNumber(number.text);
  return { value: negative ? -value : value, to: bracketed ? next + 2 : next + 1 };
}

/** Digits as a number; anything too long to be a sensible exponent as one that is past every limit. */
function wholeNumber(digits: string): number {
  return digits.length > 9 ? 1_000_000_000 : Number(digits);
}

/** One unit word or sign. */
function readAtom(state: ParserState, at: number, place: 'first' | 'beside' | 'under'): UnitRead | null {
  const { tokens } = state;
  const token = tokens[at];
  if (token === undefined) return null;
  switch (token.kind) {
    case 'degree': {
      const scale = tokens[at + 1];
      const celsius = scale?.kind === 'word' ? unitWord(`°${scale.text}`) : null;
      if (celsius !== null && !(scale?.spaced && isName(state, at + 1))) return plainRead(celsius, at + 2);
      if (place === 'beside') return null;
      return signRead('°', at);
    }
    case 'prime':
    case 'percent':
      return place === 'beside' ? null : signRead(token.text, at);
    case 'word':
      return readWord(state, token, at);
    default:
      return null;
  }
}

function signRead(sign: string, at: number): UnitRead | null {
  const unit = unitWord(sign);
  return unit === null ? null : plainRead(unit, at + 1);
}

function plainRead(unit: Unit, to: number): UnitRead {
  return { unit, to, bothWays: [], doubtful: null };
}

function readWord(state: ParserState, token: Token, at: number): UnitRead | null {
  const { tokens } = state;
  const next = tokens[at + 1];
  if (next?.kind === 'word' && !(next.spaced && isName(state, at + 1))) {
    // `\mu\text{m}` and `24 deg C` arrive as two words.
    const micro = token.text === 'mu' && !next.spaced ? unitWord(`µ${next.text}`) : null;
    const celsius = token.text === 'deg' ? unitWord(`°${next.text}`) : null;
    const pair = micro ?? celsius;
    if (pair !== null) return plainRead(pair, at + 2);
  }
  const unit = unitOf(token.text);
  if (unit === null) return null;
  if (state.mode === 'value') return plainRead(unit, at + 1);
  const name = state.names.longestName(tokens, at);
  if (name === null) return plainRead(unit, at + 1);
  if (name.length > 1) return null;
  if (state.asNames.has(token.text)) {
    state.bothWays.add(token.text);
    return null;
  }
  return { unit, to: at + 1, bothWays: [token.text], doubtful: null };
}

function isName(state: ParserState, at: number): boolean {
  return state.mode === 'link' && state.names.longestName(state.tokens, at) !== null;
}

/** The unit of a word, also with its power behind it: `cm3`, `m2`. */
export function unitOf(word: string): Unit | null {
  const plain = unitWord(word);
  if (plain !== null) return plain;
  const powered = /^([^\d_]+)([2-4])$/u.exec(word.length <= 12 ? word : '');
  const base = powered === null ? null : unitWord(powered[1] as string);
  return base === null ? null : powerUnit(base, rational(Number(powered?.[2])));
}
