import { namesIn, partsOf, plainNumber } from './evaluation.ts';
import type { Expression } from './expression.ts';
import * as Q from './quantity.ts';
import * as R from './rational.ts';
import { unitWord } from './unit.ts';

/** Whether d(a^n) is n a^(n-1) da, or what those make of it who forget n. */
export type PowersCount = 'count' | 'are left out';

/**
 * How a formula changes with one of its names: ∂f/∂x as a formula again, by the rules of differentiation.
 *
 * Exact, never a difference quotient. An angle is differentiated in radians, so that d sin θ = cos θ dθ / 1 rad.
 * Null where there is no derivative to write down (mod).
 */
export function derivative(
  expression: Expression,
  key: string,
  powers: PowersCount = 'count',
): Expression | null {
  if (!namesIn(expression).has(key)) return NOUGHT;
  switch (expression.kind) {
    case 'literal':
    case 'pi':
      return NOUGHT;
    case 'name':
      return expression.key === key ? UNITY : NOUGHT;
    case 'negate':
      return over(derivative(expression.of, key, powers), inner => ({ kind: 'negate', of: inner }));
    case 'measured':
      return over(derivative(expression.of, key, powers), inner => ({
        kind: 'measured',
        of: inner,
        unit: expression.unit,
      }));
    case 'add':
    case 'subtract': {
      const left = derivative(expression.left, key, powers);
      const right = derivative(expression.right, key, powers);
      if (left === null || right === null) return null;
      if (isNought(right)) return left;
      if (isNought(left)) return expression.kind === 'add' ? right : { kind: 'negate', of: right };
      return { kind: expression.kind, left, right };
    }
    case 'multiply': {
      const left = derivative(expression.left, key, powers);
      const right = derivative(expression.right, key, powers);
      if (left === null || right === null) return null;
      return plus(times(left, expression.right), times(expression.left, right));
    }
    case 'divide': {
      const left = derivative(expression.left, key, powers);
      const right = derivative(expression.right, key, powers);
      if (left === null || right === null) return null;
      const first = isNought(left) ? NOUGHT : divided(left, expression.right);
      if (isNought(right)) return first;
      const second = divided(times(expression.left, right), power(expression.right, TWO));
      return isNought(first)
        ? { kind: 'negate', of: second }
        : { kind: 'subtract', left: first, right: second };
    }
    case 'power': {
      // Exponents are plain numbers: d(a^n) = n a^(n-1) da.
      if (namesIn(expression.exponent).has(key)) return null;
      const base = derivative(expression.base, key, powers);
      if (base === null) return null;
      const lower: Expression = { kind: 'subtract', left: expression.exponent, right: UNITY };
      const factor = powers === 'count' ? expression.exponent : UNITY;
      return times(times(factor, power(expression.base, lower)), base);
    }
    case 'call':
      return ofCall(expression, key, powers);
  }
}

function ofCall(
  expression: Extract<Expression, { readonly kind: 'call' }>,
  key: string,
  powers: PowersCount,
): Expression | null {
  const [argument] = expression.arguments;
  if (argument === undefined) return null;
  const inner = derivative(argument, key, powers);
  if (inner === null) return null;
  const call = (name: typeof expression.name): Expression => ({ kind: 'call', name, arguments: [argument] });
  const square = power(argument, TWO);
  const root = (of: Expression): Expression => ({ kind: 'call', name: 'sqrt', arguments: [of] });
  switch (expression.name) {
    case 'sqrt':
      return divided(inner, powers === 'count' ? times(TWO, expression) : expression);
    case 'sin':
      return divided(times(call('cos'), inner), RADIAN);
    case 'cos':
      return { kind: 'negate', of: divided(times(call('sin'), inner), RADIAN) };
    case 'tan':
      return divided(inner, times(RADIAN, power(call('cos'), TWO)));
    case 'arcsin':
      return times(RADIAN, divided(inner, root({ kind: 'subtract', left: UNITY, right: square })));
    case 'arccos':
      return {
        kind: 'negate',
        of: times(RADIAN, divided(inner, root({ kind: 'subtract', left: UNITY, right: square }))),
      };
    case 'arctan':
      return times(RADIAN, divided(inner, plus(UNITY, square)));
    case 'abs':
      return times(divided(expression, argument), inner);
    case 'mean': {
      let sum: Expression = NOUGHT;
      for (const part of expression.arguments) {
        const changed = derivative(part, key, powers);
        if (changed === null) return null;
        sum = plus(sum, changed);
      }
      return divided(sum, literal(R.rational(expression.arguments.length)));
    }
    case 'mod':
      // Within one turn the remainder moves as its first value does.
      return namesIn(expression.arguments[1] ?? NOUGHT).has(key) ? null : inner;
  }
}

/**
 * The powers of the names in a product of powers: rho = m/v gives m: 1, v: -1; T = 2π sqrt(l/g) gives l: 1/2, g: -1/2.
 *
 * Null where the formula is a sum or holds a function: then the errors do not depend on the powers alone.
 */
export function powersOf(expression: Expression): ReadonlyMap<string, R.Rational> | null {
  switch (expression.kind) {
    case 'literal':
    case 'pi':
      return new Map();
    case 'name':
      return new Map([[expression.key, R.ONE]]);
    case 'negate':
    case 'measured':
      return powersOf(expression.of);
    case 'add':
    case 'subtract':
      return namesIn(expression).size === 0 ? new Map() : null;
    case 'multiply':
    case 'divide': {
      const left = powersOf(expression.left);
      const right = powersOf(expression.right);
      if (left === null || right === null) return null;
      const powers = new Map(left);
      for (const [key, by] of right) {
        const before = powers.get(key) ?? R.ZERO;
        powers.set(key, expression.kind === 'multiply' ? R.add(before, by) : R.subtract(before, by));
      }
      return powers;
    }
    case 'power': {
      const exponent = plainValue(expression.exponent);
      return exponent === null ? null : raisedBy(powersOf(expression.base), exponent);
    }
    case 'call': {
      const [argument] = expression.arguments;
      if (expression.name === 'sqrt' && argument !== undefined) return raisedBy(powersOf(argument), R.HALF);
      if (expression.name === 'abs' && argument !== undefined) return powersOf(argument);
      return partsOf(expression).every(part => namesIn(part).size === 0) ? new Map() : null;
    }
  }
}

function raisedBy(
  powers: ReadonlyMap<string, R.Rational> | null,
  by: R.Rational,
): Map<string, R.Rational> | null {
  return powers && new Map([...powers].map(([key, power]) => [key, R.multiply(power, by)]));
}

function plainValue(expression: Expression): R.Rational | null {
  if (expression.kind === 'literal') return plainNumber(expression.quantity);
  if (expression.kind === 'negate') {
    const value = plainValue(expression.of);
    return value && R.negate(value);
  }
  if (expression.kind === 'divide') {
    const left = plainValue(expression.left);
    const right = plainValue(expression.right);
    return left && right && R.divide(left, right);
  }
  return null;
}

function literal(value: R.Rational): Expression {
  return { kind: 'literal', quantity: Q.plain(value), place: null, text: R.toFractionText(value) };
}

const NOUGHT: Expression = literal(R.ZERO);
const UNITY: Expression = literal(R.ONE);
const TWO: Expression = literal(R.TWO);
const RADIAN: Expression = {
  kind: 'literal',
  quantity: Q.quantity(R.ONE, unitWord('rad')!),
  place: null,
  text: '1 rad',
};

function isNought(expression: Expression): boolean {
  return expression === NOUGHT;
}

function over(expression: Expression | null, then: (inner: Expression) => Expression): Expression | null {
  if (expression === null || isNought(expression)) return expression;
  return then(expression);
}

function times(left: Expression, right: Expression): Expression {
  if (isNought(left) || isNought(right)) return NOUGHT;
  if (left === UNITY) return right;
  if (right === UNITY) return left;
  return { kind: 'multiply', left, right };
}

function divided(left: Expression, right: Expression): Expression {
  return isNought(left) ? NOUGHT : { kind: 'divide', left, right };
}

function plus(left: Expression, right: Expression): Expression {
  if (isNought(left)) return right;
  if (isNought(right)) return left;
  return { kind: 'add', left, right };
}

function power(base: Expression, exponent: Expression): Expression {
  return { kind: 'power', base, exponent };
}
