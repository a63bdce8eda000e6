import * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import { type Span, spanOf } from '../language/syntax.ts';

/** The number of a value as it is typed, without its unit. */
export interface TypedNumber {
  /** Where it stands in the text, with its sign. */
  readonly span: Span;
  readonly value: R.Rational;
  readonly shape: NumberShape;
}

/** `2.45`; `2 3/8`, with what is below the stroke; `9.8 × 10^7` in one of its spellings. */
export type NumberShape =
  | { readonly kind: 'decimal' }
  | { readonly kind: 'fraction'; readonly below: number; readonly isMixed: boolean }
  | { readonly kind: 'tenfold'; readonly spelling: Spelling };

/** `9.8e7`, `9.8 × 10⁷`, `9.8 \times 10^{7}`, `9.8 × 10^7`. */
type Spelling = 'e' | 'raised' | 'latex' | 'plain';

const SIGN = '[-+−–]?';
const DECIMAL = '(?:\\d+(?:[ \\u00A0\\u2009\\u2007\\u202F]\\d{3}(?!\\d))*(?:\\.\\d+)?|\\.\\d+)';
const RAISED_SIGNS = '⁺⁻⁰¹²³⁴⁵⁶⁷⁸⁹';
const POWER = `\\s*(?:×|x|\\*|·|\\\\times|\\\\cdot)\\s*10\\s*(?:\\^\\s*(?:([-+−]?\\d+)|[{(]\\s*([-+−]?\\d+)\\s*[})])|([${RAISED_SIGNS}]+))`;
const TENFOLD = new RegExp(`^(${SIGN}\\s*)(${DECIMAL})(?:[eE]([-+−]?\\d+)|${POWER})`);
const ANY_TENFOLD = new RegExp(`${DECIMAL}[eE][-+−]?\\d|[\\d)]\\s*\\$?${POWER}`);
const FRACTION = new RegExp(`^(${SIGN}\\s*)(?:(\\d+)\\s+)?(\\d+)\\s*/\\s*(\\d+)`);
const PLAIN = new RegExp(`^(${SIGN}\\s*)(${DECIMAL})(?![\\d.]|\\s*[\\^/⁺⁻⁰¹²³⁴⁵⁶⁷⁸⁹])`);

/** Whether a value is written with a power of ten, also behind brackets: `(9.8 ± 0.4) × 10^7 Pa`. */
export function isTenfold(text: string): boolean {
  return ANY_TENFOLD.test(text);
}

/** The number that a text begins with; null where none stands there, or one that is written in some other way. */
export function typedNumber(text: string): TypedNumber | null {
  return typedTenfold(text) ?? typedFraction(text) ?? typedDecimal(text);
}

function typedTenfold(text: string): TypedNumber | null {
  const match = TENFOLD.exec(text);
  if (match === null) return null;
  const [whole, sign = '', digits = '', afterE, afterHat, inBrackets, raised] = match;
  const power = afterE ?? afterHat ?? inBrackets ?? [...(raised ?? '')].map(raisedAsPlain).join('');
  const value = R.parseDecimal(`${plainDigits(sign, digits)}e${power.replace('−', '-')}`);
  const spelling =
    afterE !== undefined
      ? 'e'
      : raised !== undefined
        ? 'raised'
        : whole.includes('\\') || whole.includes('{')
          ? 'latex'
          : 'plain';
  return value && { span: spanOf(0, whole.length), value, shape: { kind: 'tenfold', spelling } };
}

function raisedAsPlain(sign: string): string {
  return '+-0123456789'[RAISED_SIGNS.indexOf(sign)] ?? '';
}

function typedFraction(text: string): TypedNumber | null {
  const match = FRACTION.exec(text);
  if (match === null) return null;
  const [all, sign = '', whole, above = '', below = ''] = match;
  const part = R.divide(R.rational(above), R.rational(below));
  if (part === null || below.length > MOST_DIGITS_BELOW) return null;
  const size = R.add(R.rational(whole ?? '0'), part);
  const value = /[-−–]/.test(sign) ? R.negate(size) : size;
  const shape = { kind: 'fraction', below: Number(below), isMixed: whole !== undefined } as const;
  return { span: spanOf(0, all.length), value, shape };
}

const MOST_DIGITS_BELOW = 4;

function typedDecimal(text: string): TypedNumber | null {
  const match = PLAIN.exec(text);
  if (match === null) return null;
  const [whole, sign = '', digits = ''] = match;
  const value = R.parseDecimal(plainDigits(sign, digits));
  return value && { span: spanOf(0, whole.length), value, shape: { kind: 'decimal' } };
}

function plainDigits(sign: string, digits: string): string {
  return `${/[-−–]/.test(sign) ? '-' : ''}${digits.replace(/[^\d.]/g, '')}`;
}

/** A decimal times a power of ten, spelt as another one was typed: `9.8 \times 10^{7}`. */
export function spelledTenfold(digits: string, power: number, spelling: Spelling): string {
  switch (spelling) {
    case 'e':
      return `${digits}e${power}`;
    case 'raised':
      return `${digits} × 10${[...String(power)].map(sign => RAISED_SIGNS['+-0123456789'.indexOf(sign)]).join('')}`;
    case 'latex':
      return `${digits} \\times 10^{${power}}`;
    case 'plain':
      return `${digits} × 10^${power}`;
  }
}

/** The exponent of the power of ten that stands apart from a typed number; null where the number is not the stated one. */
export function powerApart({ value }: TypedNumber, stated: Q.Quantity): number | null {
  const number = stated.unit === null ? stated.scalar : Q.inUnit(stated, stated.unit);
  const real = number === null ? null : S.realValue(number);
  if (real === null) return null;
  if (R.isZero(value)) return R.isZero(real) ? 0 : null;
  const times = R.rationalRoundFigures(R.divide(real, value)!, TYPED_FIGURES);
  if (R.sign(times) !== 1) return null;
  const power = R.decimalExponent(times);
  return R.equals(times, R.powerInteger(R.TEN, power) ?? R.ZERO) ? power : null;
}

/** More figures than anybody types, fewer than π is carried to. */
const TYPED_FIGURES = 40;
