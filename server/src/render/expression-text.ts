import type { Expression } from '../engine/expression.ts';
import { unitShown, unitWord } from '../engine/unit.ts';

/**
 * A formula as the block language writes it: `MSR + n × LC`, `pi D^3 / 6`, `24.70 mm - (-0.15 mm)`.
 *
 * It has no more brackets than its meaning needs, and a `×` wherever a product without a sign could be read in
 * another way. Read back, it has the value that the formula has.
 */
export function expressionText(expression: Expression): string {
  return written(expression).text;
}

/** How strongly a piece holds together: a sum least, one single thing most. */
const SUM = 1;
const PRODUCT = 2;
const SIGNED = 3;
const BESIDE = 4;
const POWER = 5;
const SINGLE = 6;

interface Piece {
  readonly text: string;
  readonly holds: number;
  /** Whether it has a name or a unit; a unit that stands alone at a link's end would measure all of the link. */
  readonly isMeasured: boolean;
  /** How it ends: a unit may be gone on with, a bare number may become part of the next one. */
  readonly end: 'unit' | 'number' | 'other';
  /** Whether symbols may stand beside it without a sign: behind a π nothing is in doubt. */
  readonly takesSymbol: boolean;
}

function written(expression: Expression): Piece {
  switch (expression.kind) {
    case 'literal':
      return literal(expression);
    case 'name':
      return single(expression.text, true);
    case 'pi':
      return { ...single('pi', false), takesSymbol: true };
    case 'negate':
      return negated(written(expression.of));
    case 'add':
    case 'subtract':
      return sum(expression.kind === 'add' ? '+' : '-', written(expression.left), written(expression.right));
    case 'multiply':
      return product(expression);
    case 'divide':
      return quotient(written(expression.left), expression.right);
    case 'power':
      return power(expression.base, expression.exponent);
    case 'measured':
      return measured(expression);
    case 'call':
      return called(expression);
  }
}

function single(text: string, isMeasured: boolean): Piece {
  return { text, holds: SINGLE, isMeasured, end: 'other', takesSymbol: false };
}

function bracketed(piece: Piece): Piece {
  return single(`(${piece.text})`, piece.isMeasured);
}

/** The piece, in brackets where it holds together less than it must, or begins with a sign behind another one. */
function within(piece: Piece, least: number): Piece {
  return piece.holds < least || isSigned(piece) ? bracketed(piece) : piece;
}

function isSigned(piece: Piece): boolean {
  return /^[-+−]/.test(piece.text);
}

type Literal = Extract<Expression, { readonly kind: 'literal' }>;

const BARE_NUMBER = /^\d+(?:\.\d+)?$/;
const WITH_UNIT = /^\d+(?:\.\d+)?(?![\d.])\s*[^\s\d./^×]/;
const POWER_OF_TEN = /^(?:[\d.]+\s*×\s*)?10\s*\^|^\S*\de-?\d/;

function literal({ quantity, text }: Literal): Piece {
  const body = text.replace(/^[-+−]\s*/, '');
  if (quantity.scalar.kind === 'formula') return lettered(text, body);
  const isBare = BARE_NUMBER.test(body);
  const hasUnit = quantity.unit !== null;
  const isPlain = isBare || WITH_UNIT.test(body);
  const holds = body !== text ? SIGNED : isPlain ? (hasUnit ? POWER : SINGLE) : PRODUCT;
  return { text, holds, isMeasured: hasUnit, end: hasUnit ? 'unit' : 'number', takesSymbol: false };
}

/** `w/(2k)`, `2k - 1`: a value in the letters of the block. */
function lettered(text: string, body: string): Piece {
  const isName = /^\p{L}[\p{L}\p{M}\d_]*$/u.test(text);
  const outside = withoutBrackets(body);
  const holds = isName ? SINGLE : / [-+] /.test(outside) ? SUM : PRODUCT;
  return { text, holds, isMeasured: true, end: 'other', takesSymbol: false };
}

/** What of a text stands in no brackets. */
function withoutBrackets(text: string): string {
  let depth = 0;
  let outside = '';
  for (const sign of text) {
    if (sign === '(') depth += 1;
    else if (sign === ')') depth -= 1;
    else if (depth === 0) outside += sign;
  }
  return outside;
}

/** `-a × b` is the same whether the sign goes with a or with all of it. */
function negated(of: Piece): Piece {
  const inner = within(of, PRODUCT);
  return { ...inner, text: `-${inner.text}`, holds: Math.min(inner.holds, SIGNED), takesSymbol: false };
}

function sum(sign: string, left: Piece, right: Piece): Piece {
  const second = within(right, PRODUCT);
  return joined(left, ` ${sign} `, second, SUM);
}

function joined(left: Piece, between: string, right: Piece, holds: number): Piece {
  return {
    text: left.text + between + right.text,
    holds,
    isMeasured: left.isMeasured || right.isMeasured,
    end: right.end,
    takesSymbol: false,
  };
}

/** Divisions that a number counts: `25 VSD`. */
const COUNTED = /^(?:MSD|VSD|LSD|CSD|PSD|HSD|rotations?|turns?)$/;

function product({ left, right }: Extract<Expression, { readonly left: Expression }>): Piece {
  const first = written(left);
  const second = written(right);
  if (right.kind === 'name' && COUNTED.test(right.text) && BARE_NUMBER.test(first.text))
    return joined(first, ' ', second, BESIDE);
  if (standsBeside(first, right, second)) return { ...joined(first, ' ', second, BESIDE), takesSymbol: true };
  const above = apart(first.holds < PRODUCT ? bracketed(first) : first, right);
  // A product in a product needs no brackets; a quotient keeps them, as it was put.
  const isProduct = right.kind === 'multiply' && !isSigned(second);
  const isFraction = right.kind === 'literal' && second.holds === PRODUCT && !isSigned(second);
  const below = isProduct || isFraction ? second : within(second, SIGNED);
  return joined(above, ' × ', isTenfold(first, below) ? bracketed(below) : below, PRODUCT);
}

/** `2 × 10^3` is one number; what stands before it must not reach into it. */
function isTenfold(first: Piece, second: Piece): boolean {
  return first.end === 'number' && POWER_OF_TEN.test(second.text) && !BARE_NUMBER.test(first.text);
}

const SYMBOL =
  /^(?:\p{L}\p{M}*|alpha|beta|gamma|delta|epsilon|theta|lambda|mu|rho|sigma|tau|phi|omega)(?:_?[\d₀-₉]+)?$/u;

/** Whether two factors may go without a sign: `4 pi^2 l`, `pi D^3`. */
function standsBeside(first: Piece, right: Expression, second: Piece): boolean {
  if (right.kind === 'pi' || (right.kind === 'power' && right.base.kind === 'pi' && isWhole(right.exponent)))
    return BARE_NUMBER.test(first.text);
  if (!first.takesSymbol || first.holds < BESIDE || second.holds < POWER) return false;
  const base = right.kind === 'power' && isWhole(right.exponent) ? right.base : right;
  return base.kind === 'name' && SYMBOL.test(base.text);
}

function isWhole(exponent: Expression): boolean {
  return exponent.kind === 'literal' && /^\d+$/.test(exponent.text);
}

/** A unit goes on over a sign: in `2 cm / m` the m would be metres, in `(2 cm) / m` it is the name. */
function apart(first: Piece, right: Expression): Piece {
  return first.end === 'unit' && beginsLikeUnit(right) ? bracketed(first) : first;
}

function beginsLikeUnit(expression: Expression): boolean {
  switch (expression.kind) {
    case 'name': {
      const word = expression.text.split(/[\s_]/)[0] ?? '';
      return unitWord(word) !== null || unitWord(word.replace(/[2-4]$/, '')) !== null;
    }
    case 'multiply':
    case 'divide':
      return beginsLikeUnit(expression.left);
    case 'power':
      return beginsLikeUnit(expression.base);
    case 'literal':
      return expression.quantity.scalar.kind === 'formula';
    default:
      return false;
  }
}

function quotient(first: Piece, right: Expression): Piece {
  const above = apart(first.holds < PRODUCT ? bracketed(first) : first, right);
  const second = written(right);
  // 6 / 2 mm would be three millimetres, 3 / 8 in three eighths of an inch.
  const takesUnit = second.end === 'unit' && (!above.isMeasured || above.end === 'number');
  const isTight = second.holds === POWER || second.holds === SINGLE;
  const below = !isTight || isSigned(second) || takesUnit ? bracketed(second) : second;
  return joined(above, ' / ', below, PRODUCT);
}

function power(base: Expression, exponent: Expression): Piece {
  const below = written(base);
  const isSingle = below.holds === SINGLE && base.kind !== 'call';
  const raised = written(exponent);
  const isPlain =
    (exponent.kind === 'literal' && /^-?\d+$/.test(raised.text)) ||
    (exponent.kind === 'name' && raised.holds === SINGLE);
  return {
    text: `${isSingle ? below.text : `(${below.text})`}^${isPlain ? raised.text : `(${raised.text})`}`,
    holds: POWER,
    isMeasured: below.isMeasured || raised.isMeasured,
    end: 'other',
    takesSymbol: base.kind === 'pi' && isWhole(exponent),
  };
}

/** `(2.4 + 0.06) cm`; what has names or units of its own is multiplied by one of the unit. */
function measured({ of, unit }: Extract<Expression, { readonly kind: 'measured' }>): Piece {
  const inner = written(of);
  const shown = unitShown(unit);
  if (shown === '') return inner;
  const gap = /^[°′″](?![A-Za-z])/.test(shown) ? '' : ' ';
  const text = inner.isMeasured ? `(${inner.text}) × 1${gap}${shown}` : `(${inner.text})${gap}${shown}`;
  return {
    text,
    holds: inner.isMeasured ? PRODUCT : POWER,
    isMeasured: true,
    end: 'unit',
    takesSymbol: false,
  };
}

function called(call: Extract<Expression, { readonly kind: 'call' }>): Piece {
  const values = call.arguments.map(written);
  const isMeasured = values.some(value => value.isMeasured);
  const inner = values.map(({ text }) => text).join(', ');
  // Bars in bars cannot be told apart.
  const isBarred = call.name === 'abs' && !inner.includes('|');
  return single(isBarred ? `|${inner}|` : `${call.name}(${inner})`, isMeasured);
}
