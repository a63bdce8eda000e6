import { isPlain } from '../engine/dimension.ts';
import type { Expression } from '../engine/expression.ts';
import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';

export type Literal = Extract<Expression, { readonly kind: 'literal' }>;

/** A number without a unit. */
export function isBare(literal: Literal): boolean {
  return literal.quantity.unit === null && isPlain(literal.quantity.dimension);
}

/** What is never looked for among the values: π in its usual roundings, and counts to 12; `2.0` may be measured, `2` is not. */
export function isOwnNumber(literal: Literal): boolean {
  return isPi(literal) || (isSmallWhole(literal) && !literal.text.includes('.'));
}

/** Numbers that need no origin: π in its usual roundings, whole numbers to 12, the hundred of per cent and the like. */
export function standsForItself(literal: Literal): boolean {
  return isSmallWhole(literal) || isPi(literal) || isUsual(literal);
}

export function isWhole({ quantity }: Literal): boolean {
  const value = S.realValue(quantity.scalar);
  return value !== null && R.isInteger(value);
}

function isSmallWhole({ quantity }: Literal): boolean {
  const value = isPlain(quantity.dimension) ? S.realValue(quantity.scalar) : null;
  return value !== null && R.isInteger(value) && R.compare(R.abs(value), R.rational(12)) <= 0;
}

/** π in one of its usual roundings. */
export function isPi({ quantity }: Literal): boolean {
  const value = isPlain(quantity.dimension) ? S.realValue(quantity.scalar) : null;
  return value !== null && PI_ROUNDINGS.some(pi => R.equals(pi, value));
}

/** 22/7, as π is written in a hurry. */
export function isPiQuotient(expression: Expression): boolean {
  return (
    expression.kind === 'divide' && isWholeNumber(expression.left, 22) && isWholeNumber(expression.right, 7)
  );
}

function isWholeNumber(expression: Expression, number: number): boolean {
  if (expression.kind !== 'literal' || !isBare(expression)) return false;
  const value = S.realValue(expression.quantity.scalar);
  return value !== null && R.equals(value, R.rational(number));
}

/** A number that formulas hold and nobody measures: 100, a half, 90, 180, 360, 1000. */
export function isUsual({ quantity }: Literal): boolean {
  const value = isPlain(quantity.dimension) ? S.realValue(quantity.scalar) : null;
  return value !== null && USUAL.some(number => R.equals(number, value));
}

const USUAL = [R.rational(100), R.HALF, R.rational(90), R.rational(180), R.rational(360), R.rational(1000)];

const PI_ROUNDINGS = [
  R.rational('3.14'),
  R.rational('3.142'),
  R.rational('3.1416'),
  R.rational('3.14159'),
  R.rational(22, 7),
];
