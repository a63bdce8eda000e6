import type { Expression, FunctionName } from '../engine/expression.ts';
import { unitShown } from '../engine/unit.ts';
import { nameLatex } from './name-latex.ts';
import { unitLatex } from './unit-latex.ts';
import { valueLatex } from './value-latex.ts';

/**
 * A formula in LaTeX math, as a textbook prints it: quotients as fractions, symbols slanted, words and units upright.
 *
 * It holds no `$`, no `|` and no line break, so that it may stand in a line of Markdown or in a table.
 */
export function expressionLatex(expression: Expression): string {
  return written(expression).latex;
}

/** How strongly a piece holds together: a sum least, one single thing most. */
const SUM = 1;
const PRODUCT = 2;
const FACTOR = 3;
const SINGLE = 4;

interface Piece {
  readonly latex: string;
  readonly holds: number;
  /** Whether symbols may stand beside it without a sign: `\pi D^{3}`. */
  readonly takesSymbol: boolean;
}

function written(expression: Expression): Piece {
  switch (expression.kind) {
    case 'literal':
      return literal(expression);
    case 'name':
      return piece(nameLatex(expression.text), SINGLE);
    case 'pi':
      return { latex: '\\pi', holds: SINGLE, takesSymbol: true };
    case 'negate':
      return piece(`-${within(written(expression.of), PRODUCT)}`, PRODUCT);
    case 'add':
      return sum('+', expression.left, expression.right);
    case 'subtract':
      return sum('-', expression.left, expression.right);
    case 'multiply':
      return product(expression.left, expression.right);
    case 'divide':
      return piece(`\\frac{${written(expression.left).latex}}{${written(expression.right).latex}}`, FACTOR);
    case 'power':
      return power(expression.base, expression.exponent);
    case 'measured':
      return measured(written(expression.of).latex, unitLatex(unitShown(expression.unit)));
    case 'call':
      return called(expression.name, expression.arguments);
  }
}

function piece(latex: string, holds: number): Piece {
  return { latex, holds, takesSymbol: false };
}

/** `(2.4 + 0.06)\,\text{cm}`; one number needs no brackets. */
function measured(of: string, unit: string): Piece {
  const isOne = /^(?:[\d.]+|\d*\\tfrac\{\d+\}\{\d+\})$/.test(of);
  return piece((isOne || unit === '' ? of : bracketed(of)) + unit, unit === '' && !isOne ? SUM : FACTOR);
}

/** Brackets grow with what is higher than a line. */
function bracketed(latex: string): string {
  return latex.includes('\\frac') ? `\\left(${latex}\\right)` : `(${latex})`;
}

/** The piece, in brackets where it holds together less than it must, or begins with a sign behind another one. */
function within({ latex, holds }: Piece, least: number): string {
  return holds < least || /^[-+]/.test(latex) ? bracketed(latex) : latex;
}

function literal({ text, quantity }: Extract<Expression, { readonly kind: 'literal' }>): Piece {
  const latex = valueLatex(text, quantity);
  if (quantity.scalar.kind === 'formula') return piece(latex, / [-+] /.test(latex) ? SUM : PRODUCT);
  const isBare = /^\d+(?:\.\d+)?$/.test(latex);
  return piece(latex, isBare ? SINGLE : latex.includes('\\times') ? PRODUCT : FACTOR);
}

function sum(sign: string, left: Expression, right: Expression): Piece {
  return piece(`${written(left).latex} ${sign} ${within(written(right), PRODUCT)}`, SUM);
}

/** Divisions that a number counts: `25\,\text{VSD}`. */
const COUNTED = /^(?:MSD|VSD|LSD|CSD|PSD|HSD|rotations?|turns?)$/;

function product(left: Expression, right: Expression): Piece {
  const first = written(left);
  const second = written(right);
  if (right.kind === 'name' && COUNTED.test(right.text) && isNumber(left))
    return piece(`${first.latex}\\,${second.latex}`, PRODUCT);
  if (standsBeside(left, first, right))
    return { latex: `${first.latex} ${second.latex}`, holds: PRODUCT, takesSymbol: true };
  const leftLatex = first.holds < PRODUCT ? bracketed(first.latex) : first.latex;
  const sign = isSymbol(right) && endsInSymbol(left) ? '\\cdot' : '\\times';
  return piece(`${leftLatex} ${sign} ${within(second, PRODUCT)}`, PRODUCT);
}

function isNumber(expression: Expression): boolean {
  return expression.kind === 'literal' && /^\d+(?:\.\d+|\/\d+)?$/.test(expression.text);
}

/** Whether a number or a symbol stands last in a product. */
function endsInSymbol(expression: Expression): boolean {
  const last = expression.kind === 'multiply' ? expression.right : expression;
  return isNumber(last) || isSymbol(last);
}

/** Whether two factors go without a sign, as `4\pi^{2} l` does. */
function standsBeside(left: Expression, first: Piece, right: Expression): boolean {
  const isPi = right.kind === 'pi' || (right.kind === 'power' && right.base.kind === 'pi');
  return isPi ? isNumber(left) : first.takesSymbol && isSymbol(right);
}

/** One letter with what stands below and above it. */
function isSymbol(expression: Expression): boolean {
  if (expression.kind === 'power') return isSymbol(expression.base);
  return (
    expression.kind === 'name' && !/\\text|\\mathit|\(/.test(nameLatex(expression.text).replace(/_\{.*/, ''))
  );
}

function power(base: Expression, exponent: Expression): Piece {
  const below = written(base);
  const isSingle = below.holds === SINGLE && base.kind !== 'call' && !/\\text|\\Delta /.test(below.latex);
  const latex = isSingle ? below.latex : bracketed(below.latex);
  return { latex: `${latex}^{${written(exponent).latex}}`, holds: FACTOR, takesSymbol: below.takesSymbol };
}

function called(name: FunctionName, values: readonly Expression[]): Piece {
  const inner = values.map(value => written(value).latex);
  const [first = ''] = inner;
  switch (name) {
    case 'sqrt':
      return piece(`\\sqrt{${first}}`, FACTOR);
    case 'abs':
      return piece(`\\left\\lvert ${first}\\right\\rvert`, SINGLE);
    case 'mean':
    case 'mod':
      return piece(`\\operatorname{${name}}\\left(${inner.join(',\\,')}\\right)`, FACTOR);
    case 'sin':
    case 'cos':
    case 'tan':
    case 'arcsin':
    case 'arccos':
    case 'arctan': {
      const [argument] = values;
      const isOne = argument !== undefined && argument.kind === 'name' && isSymbol(argument);
      return piece(`\\${name}${isOne ? ` ${first}` : `\\left(${first}\\right)`}`, FACTOR);
    }
  }
}
