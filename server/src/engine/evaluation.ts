import { isPlain } from './dimension.ts';
import type { Expression, FunctionName } from './expression.ts';
import * as Q from './quantity.ts';
import * as R from './rational.ts';
import * as S from './scalar.ts';

/** What a name of a formula is worth; a trouble where it is worth nothing. */
export type Lookup = (key: string) => Q.Outcome;

/** What a name is worth of which nothing is known. */
export const NO_VALUE: Q.Outcome = { ok: false, trouble: { kind: 'domain', what: 'a value is missing' } };

const PI: Q.Quantity = Q.plain(S.PI);

/**
 * The value of a formula, with its unit.
 *
 * Exact unless a root, π or a trigonometric function comes in. What cannot be worked out (a length plus an angle,
 * a division by nought) comes back as a trouble.
 */
export function evaluate(expression: Expression, lookup: Lookup): Q.Outcome {
  switch (expression.kind) {
    case 'literal':
      return { ok: true, quantity: expression.quantity };
    case 'pi':
      return { ok: true, quantity: PI };
    case 'name':
      return lookup(expression.key);
    case 'negate':
      return map(evaluate(expression.of, lookup), a => ({ ok: true, quantity: Q.negate(a) }));
    case 'add':
    case 'subtract':
    case 'multiply':
    case 'divide':
      return both(expression, lookup);
    case 'power':
      return raised(expression.base, expression.exponent, lookup);
    case 'measured':
      return map(evaluate(expression.of, lookup), a => Q.multiply(a, Q.quantity(R.ONE, expression.unit)));
    case 'call': {
      const values: Q.Quantity[] = [];
      for (const argument of expression.arguments) {
        const value = evaluate(argument, lookup);
        if (!value.ok) return value;
        values.push(value.quantity);
      }
      return called(expression.name, values);
    }
  }
}

function map(outcome: Q.Outcome, then: (quantity: Q.Quantity) => Q.Outcome): Q.Outcome {
  return outcome.ok ? then(outcome.quantity) : outcome;
}

function both(expression: Extract<Expression, { readonly left: Expression }>, lookup: Lookup): Q.Outcome {
  const left = evaluate(expression.left, lookup);
  if (!left.ok) return left;
  const right = evaluate(expression.right, lookup);
  if (!right.ok) return right;
  switch (expression.kind) {
    case 'add':
      return Q.add(left.quantity, right.quantity);
    case 'subtract':
      return Q.subtract(left.quantity, right.quantity);
    case 'multiply':
      return Q.multiply(left.quantity, right.quantity);
    case 'divide':
      return Q.divide(left.quantity, right.quantity);
  }
}

function raised(base: Expression, exponent: Expression, lookup: Lookup): Q.Outcome {
  return map(evaluate(exponent, lookup), by => {
    const power = plainNumber(by);
    if (power === null)
      return { ok: false, trouble: { kind: 'domain', what: 'an exponent must be a plain number' } };
    return map(evaluate(base, lookup), a => Q.power(a, power));
  });
}

function called(name: FunctionName, values: readonly Q.Quantity[]): Q.Outcome {
  const [first, second] = values;
  if (first === undefined) return { ok: false, trouble: { kind: 'domain', what: `${name} needs a value` } };
  switch (name) {
    case 'sqrt':
      return Q.sqrt(first);
    case 'sin':
      return Q.sin(first);
    case 'cos':
      return Q.cos(first);
    case 'tan':
      return Q.tan(first);
    case 'arcsin':
      return Q.arcsin(first);
    case 'arccos':
      return Q.arccos(first);
    case 'arctan':
      return Q.arctan(first);
    case 'abs':
      return Q.abs(first);
    case 'mean':
      return mean(values);
    case 'mod':
      if (second === undefined)
        return { ok: false, trouble: { kind: 'domain', what: 'mod needs two values' } };
      return Q.mod(first, second);
  }
}

/** The number that a quantity without unit is; null for units and letters. */
export function plainNumber(quantity: Q.Quantity): R.Rational | null {
  return isPlain(quantity.dimension) ? S.realValue(quantity.scalar) : null;
}

/** The mean of some values: their sum divided by how many they are. */
export function mean(values: readonly Q.Quantity[]): Q.Outcome {
  const [first, ...others] = values;
  if (first === undefined) return { ok: false, trouble: { kind: 'zero-division' } };
  let sum: Q.Outcome = { ok: true, quantity: first };
  for (const value of others) sum = map(sum, total => Q.add(total, value));
  return map(sum, total => Q.divide(total, Q.plain(R.rational(values.length))));
}

/** The keys of all names in a formula. */
export function namesIn(expression: Expression): ReadonlySet<string> {
  const names = new Set<string>();
  visit(expression, part => {
    if (part.kind === 'name') names.add(part.key);
  });
  return names;
}

/** Every part of a formula, from the outside in. */
export function visit(expression: Expression, see: (part: Expression) => void): void {
  see(expression);
  for (const part of partsOf(expression)) visit(part, see);
}

/** Whether π stands in a formula. */
export function holdsPi(expression: Expression): boolean {
  return expression.kind === 'pi' || partsOf(expression).some(holdsPi);
}

/** The parts that a formula is directly made of. */
export function partsOf(expression: Expression): readonly Expression[] {
  switch (expression.kind) {
    case 'literal':
    case 'pi':
    case 'name':
      return [];
    case 'negate':
    case 'measured':
      return [expression.of];
    case 'add':
    case 'subtract':
    case 'multiply':
    case 'divide':
      return [expression.left, expression.right];
    case 'power':
      return [expression.base, expression.exponent];
    case 'call':
      return expression.arguments;
  }
}

/** The same formula with some parts replaced; what `replace` gives null for stays. */
export function rewrite(
  expression: Expression,
  replace: (part: Expression) => Expression | null,
): Expression {
  const replaced = replace(expression);
  if (replaced !== null) return replaced;
  switch (expression.kind) {
    case 'literal':
    case 'pi':
    case 'name':
      return expression;
    case 'negate':
    case 'measured':
      return { ...expression, of: rewrite(expression.of, replace) };
    case 'add':
    case 'subtract':
    case 'multiply':
    case 'divide':
      return {
        ...expression,
        left: rewrite(expression.left, replace),
        right: rewrite(expression.right, replace),
      };
    case 'power':
      return {
        ...expression,
        base: rewrite(expression.base, replace),
        exponent: rewrite(expression.exponent, replace),
      };
    case 'call':
      return { ...expression, arguments: expression.arguments.map(part => rewrite(part, replace)) };
  }
}
