import { dimension, sameDimension } from '../engine/dimension.ts';
import type { Expression } from '../engine/expression.ts';
import { plain, quantity } from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import { type Unit, unitText, unitWord } from '../engine/unit.ts';
import { tooLong } from './number-problems.ts';
import {
  doubt,
  fail,
  isOperator,
  isRaised,
  LARGEST_EXPONENT,
  literalText,
  MOST_DIGITS,
  type NumberParts,
  type ParserState,
  type Part,
  spanOfTokens,
} from './parser-state.ts';
import { joinSpans, type Span, type Token } from './syntax.ts';
import { besideBelow } from './unit-below.ts';
import { readUnit, type UnitRead, wholeExponent } from './unit-parser.ts';

/**
 * Reads the number that begins at the place reached, with its unit: `2.45 cm`, `1/20 mm`, `2 3/8 in`,
 * `2.5 × 10^-3 m`, `24° 31′ 20″`.
 *
 * The sign is no part of it. Its place is one unit of the last digit as typed, in base units (1/10000 m
 * for 2.45 cm); a fraction states no place. Null, with the reason noted, where it cannot be read.
 */
export function readLiteral(state: ParserState): Part | null {
  const { at } = state;
  const number =
    readMixed(state, at) ?? readPowerOfTen(state, at) ?? readFraction(state, at) ?? readPlain(state, at);
  if (number === null) {
    return fail(state, tooLong(spanOfTokens(state.tokens, at, at + 1)));
  }
  const unit = readUnit(state, number.to);
  const summed = unit !== null && number.shape === 'plain' ? readSum(state, number, unit) : null;
  if (summed !== null) return finish(state, at, summed.number, summed.unit, 'plain');
  return finish(state, at, number, unit, number.shape);
}

/** A number with its unit, as it stands in an expression. */
export type Literal = Extract<Expression, { kind: 'literal' }>;

interface NumberRead {
  readonly value: R.Rational;
  readonly place: R.Rational | null;
  readonly to: number;
  readonly shape: Part['shape'];
}

function finish(
  state: ParserState,
  from: number,
  number: NumberRead,
  unit: UnitRead | null,
  shape: Part['shape'],
): Part {
  const to = unit?.to ?? number.to;
  const parts: NumberParts = {
    value: number.value,
    place: number.place,
    text: literalText(state.tokens, from, number.to),
    span: spanOfTokens(state.tokens, from, number.to),
  };
  if (unit !== null) useUnit(state, unit, number.to);
  // A unit in brackets or typeset as a fraction is quoted plainly.
  const isDressed = unit !== null && isOperator(state.tokens[number.to], '(', '[');
  const text = isDressed ? `${parts.text} ${unitText(unit.unit)}` : literalText(state.tokens, from, to);
  const expression = literalOf(state, parts, unit?.unit ?? null, text, spanOfTokens(state.tokens, from, to));
  state.at = to;
  return { expression, from, to, factors: 1, secondFactor: to, shape };
}

/** Notes that a unit was read, for the rules about the only unit of a link. */
export function useUnit(state: ParserState, unit: UnitRead, from: number): void {
  for (const word of unit.bothWays) state.bothWays.add(word);
  if (unit.doubtful !== null) doubt(state, besideBelow(state, unit, from));
  const text = from < unit.to ? literalText(state.tokens, from, unit.to) : null;
  state.units.push({ unit: unit.unit, to: unit.to, text });
}

/** Makes a literal out of its number and its unit, and keeps the number apart for later. */
export function literalOf(
  state: ParserState,
  number: NumberParts,
  unit: Unit | null,
  text: string,
  span: Span,
): Literal {
  const literal = {
    kind: 'literal',
    quantity: unit === null ? plain(number.value) : quantity(number.value, unit),
    place: number.place === null || unit === null ? number.place : R.multiply(number.place, unit.factor),
    text,
  } as const;
  state.spans.set(literal, span);
  state.numbers.set(literal, number);
  return literal;
}

/** The literal with another number or unit, at the same place in the note. */
export function replaceLiteral(
  state: ParserState,
  literal: Literal,
  number: NumberParts,
  unit: Unit | null,
  text: string,
  span: Span = state.spans.get(literal) ?? number.span,
): Literal {
  state.spans.delete(literal);
  state.numbers.delete(literal);
  return literalOf(state, number, unit, text, span);
}

/** A whole number that stands raised: the 2 of `r²` or `sin^2`. */
export function wholeLiteral(state: ParserState, value: number, span: Span): Expression {
  return literalOf(
    state,
    { value: R.rational(value), place: R.ONE, text: String(value), span },
    null,
    String(value),
    span,
  );
}

/** The literal with the other sign; `text` and `span` take in the sign as typed. */
export function signedLiteral(state: ParserState, literal: Literal, sign: Token): Expression {
  const number = state.numbers.get(literal);
  if (number === undefined) return literal;
  const negative = sign.text === '-';
  const parts: NumberParts = {
    ...number,
    value: negative ? R.negate(number.value) : number.value,
    text: sign.text + number.text,
    span: joinSpans(sign.span, number.span),
  };
  const span = joinSpans(sign.span, state.spans.get(literal) ?? sign.span);
  return replaceLiteral(state, literal, parts, literal.quantity.unit, sign.text + literal.text, span);
}

function readPlain(state: ParserState, at: number): NumberRead | null {
  const text = (state.tokens[at] as Token).text;
  const value = digitCount(text) > MOST_DIGITS ? null : R.parseDecimal(text);
  const place = value === null ? null : placeOf(text);
  return value === null || place === null ? null : { value, place, to: at + 1, shape: 'plain' };
}

function digitCount(text: string): number {
  return text.replace(/e.*$/, '').replace('.', '').length;
}

/** One in the last digit of a typed number: 0.01 for 2.45, 1 for 12, 0.0001 for 2.5e-3. */
function placeOf(text: string): R.Rational | null {
  const [digits = '', exponent = '0'] = text.split('e');
  const point = digits.indexOf('.');
  const decimals = point === -1 ? 0 : digits.length - point - 1;
  const power = Number(exponent) - decimals;
  return R.powerInteger(R.TEN, power);
}

/**
 * `2 3/8`: a whole number, a space, and a proper fraction.
 *
 *     > | 2 3/8 in
 *         ^            the whole number
 *           ^^^        the fraction
 */
function readMixed(state: ParserState, at: number): NumberRead | null {
  const { tokens } = state;
  const whole = wholeValue(tokens[at]);
  const upper = wholeValue(tokens[at + 1]);
  const lower = isOperator(tokens[at + 2], '/') ? wholeValue(tokens[at + 3]) : null;
  if (whole === null || upper === null || lower === null || !tokens[at + 1]?.spaced) return null;
  if (upper >= lower || isRaised(tokens[at + 4]) || isOperator(tokens[at - 1], '/', '^')) return null;
  return { value: R.rational(whole * lower + upper, lower), place: null, to: at + 4, shape: 'fraction' };
}

/** `2.5 × 10^-3`, `2.5 × 10⁻³`, and `10^-3` alone, which states no place. */
function readPowerOfTen(state: ParserState, at: number): NumberRead | null {
  if (!state.unitsAllowed) return null;
  const { tokens } = state;
  const alone = tokens[at]?.text === '10' && isRaised(tokens[at + 1]);
  const timesTen =
    isOperator(tokens[at + 1], '×') && tokens[at + 2]?.text === '10' && tokens[at + 2]?.kind === 'number';
  if (!alone && !timesTen) return null;
  const exponent = wholeExponent(tokens, alone ? at + 1 : at + 3);
  if (exponent === null || isRaised(tokens[exponent.to])) return null;
  if (Math.abs(exponent.value) > LARGEST_EXPONENT) return null;
  const power = R.powerInteger(R.TEN, exponent.value);
  if (power === null) return null;
  if (alone) return { value: power, place: null, to: exponent.to, shape: 'plain' };
  const number = readPlain(state, at);
  if (number === null || number.place === null) return null;
  return {
    value: R.multiply(number.value, power),
    place: R.multiply(number.place, power),
    to: exponent.to,
    shape: 'power-of-ten',
  };
}

/**
 * `1/20` of whole numbers, where it is a value: alone in its link or brackets, or with a unit behind it.
 * Anywhere else it is a division, and what it applies to is for the formula to say.
 */
function readFraction(state: ParserState, at: number): NumberRead | null {
  const { tokens } = state;
  const upper = wholeValue(tokens[at]);
  const lower = isOperator(tokens[at + 1], '/') ? wholeValue(tokens[at + 2]) : null;
  if (upper === null || lower === null || lower === 0n) return null;
  const signed = isOperator(tokens[at - 1], '+', '-');
  const before = tokens[signed ? at - 2 : at - 1];
  const alone = beginsValue(before);
  const read = { value: R.rational(upper, lower), place: null, to: at + 3, shape: 'fraction' } as const;
  const unit = readUnit(state, at + 3);
  if (unit === null) return alone && endsValue(tokens[at + 3]) ? read : null;
  const begins = alone || signed || isOperator(before, '+', '-', '×');
  const after = tokens[unit.to];
  return begins && (endsValue(after) || isOperator(after, '+', '-', '×') || isOperator(after, '/'))
    ? read
    : null;
}

function beginsValue(before: Token | undefined): boolean {
  return before === undefined || isOperator(before, '(', ',', '±') || isOperator(before, '|');
}

function endsValue(token: Token | undefined): boolean {
  return token === undefined || isOperator(token, ')', ',', '±') || isOperator(token, '|');
}

function wholeValue(token: Token | undefined): bigint | null {
  if (token?.kind !== 'number' || token.text.length > MOST_DIGITS) return null;
  return /^[0-9]+$/.test(token.text) ? BigInt(token.text) : null;
}

const ANGLE = dimension({ angle: 1 });
const TIME = dimension({ time: 1 });

/**
 * Goes on with the finer parts of an angle or a time: `24° 31′ 20″`, `24 deg 31 min`, `5 min 20 s`.
 *
 *     > | 24° 31′ 20″
 *         ^^^                whole degrees, as was read
 *             ^^^ ^^^        each finer than the one before, all but the last whole
 */
function readSum(
  state: ParserState,
  first: NumberRead,
  unit: UnitRead,
): { number: NumberRead; unit: UnitRead } | null {
  const isAngle = sameDimension(unit.unit.dimension, ANGLE);
  if (!isAngle && !sameDimension(unit.unit.dimension, TIME)) return null;
  let { value, place, to } = first;
  let read = unit;
  let finest = unit.unit;
  let whole = R.isInteger(value) && R.equals(place ?? R.ZERO, R.ONE);
  while (whole && state.tokens[read.to]?.kind === 'number') {
    const part = readPlain(state, read.to);
    const partUnit = part === null ? null : readUnit(state, part.to);
    if (part === null || part.place === null || partUnit === null) break;
    const finer = isAngle ? ofArc(partUnit.unit) : partUnit.unit;
    const ratio = R.divide(finer.factor, unit.unit.factor);
    const isFiner =
      sameDimension(finer.dimension, finest.dimension) && R.compare(finer.factor, finest.factor) === -1;
    if (ratio === null || !isFiner) break;
    value = R.add(value, R.multiply(part.value, ratio));
    place = R.multiply(part.place, ratio);
    whole = R.equals(part.place, R.ONE);
    finest = finer;
    to = partUnit.to;
    read = { unit: unit.unit, to, bothWays: [...read.bothWays, ...partUnit.bothWays], doubtful: null };
  }
  return finest === unit.unit ? null : { number: { value, place, to, shape: 'plain' }, unit: read };
}

/** Behind degrees, `min` and `sec` are minutes and seconds of arc. */
function ofArc(unit: Unit): Unit {
  const sign = unit.symbol === 'min' ? '′' : unit.symbol === 's' ? '″' : null;
  return (sign === null ? null : unitWord(sign)) ?? unit;
}
