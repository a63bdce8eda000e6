import type { Expression } from '../engine/expression.ts';
import { plain, type Quantity, quantity } from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import { unitWord } from '../engine/unit.ts';
import type { Parsed } from './expression-parser.ts';
import { literalText, NO_WORDS } from './parser-state.ts';
import { joinSpans, type Token } from './syntax.ts';

/**
 * Reads what most values are, a number with at most a sign and one unit word: `17`, `2.45 cm`, `-0.03 mm`.
 *
 * Gives just what the whole parser would give, and null for everything else.
 */
export function quickValue(tokens: readonly Token[]): Parsed | null {
  const first = tokens[0];
  const signed = first?.kind === 'operator' && (first.text === '-' || first.text === '+');
  const number = tokens[signed ? 1 : 0];
  const unit = tokens[signed ? 2 : 1];
  if (first === undefined || number?.kind !== 'number' || tokens.length > (signed ? 3 : 2)) return null;
  if (unit !== undefined && unit.kind !== 'word') return null;
  const value = knownValue(signed ? first.text : '', number.text, unit?.text ?? null);
  if (value === null) return null;
  const expression: Expression = {
    kind: 'literal',
    quantity: value.quantity,
    place: value.place,
    text: signed ? first.text + literalText(tokens, 1, tokens.length) : literalText(tokens, 0, tokens.length),
  };
  return {
    expression,
    doubtful: null,
    error: null,
    isValue: true,
    ambiguousWords: NO_WORDS,
    mixed: null,
    hasUnit: unit !== undefined,
    spans: new Map().set(expression, joinSpans(first.span, (unit ?? number).span)),
    problems: [],
  };
}

interface Value {
  readonly quantity: Quantity;
  readonly place: R.Rational;
}

/** The same values come again and again in a note, and from note to note. */
const values = new Map<string, Value | null>();
const MOST_KEPT = 4000;
const LONGEST = 20;

function knownValue(sign: string, number: string, word: string | null): Value | null {
  if (number.length > LONGEST || (word !== null && word.length > LONGEST)) return null;
  const key = `${sign}${number} ${word ?? ''}`;
  const before = values.get(key);
  if (before !== undefined) return before;
  const value = makeValue(sign, number, word);
  if (values.size >= MOST_KEPT) values.clear();
  values.set(key, value);
  return value;
}

function makeValue(sign: string, number: string, word: string | null): Value | null {
  const unit = word === null ? null : unitWord(word);
  const size = /^\d+(?:\.\d+)?$/.test(number) ? R.parseDecimal(number) : null;
  if (size === null || (word !== null && unit === null)) return null;
  const point = number.indexOf('.');
  const place = R.powerInteger(R.TEN, point === -1 ? 0 : point + 1 - number.length);
  if (place === null) return null;
  const value = sign === '-' ? R.negate(size) : size;
  return {
    quantity: unit === null ? plain(value) : quantity(value, unit),
    place: unit === null ? place : R.multiply(place, unit.factor),
  };
}
