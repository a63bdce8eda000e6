import * as Q from '../quantity.ts';
import type { Rational } from '../rational.ts';

/** A value that may be missing: whatever rests on a missing one is missing too. */
export type Maybe = Q.Quantity | null;

/** All of them added up, shown as the first is; null where one is missing or of another kind. */
export function sum(...values: readonly Maybe[]): Maybe {
  const [first = null, ...others] = values;
  return others.reduce<Maybe>((total, value) => both(total, value, Q.add), first);
}

/** a - b; null where one is missing or of another kind. */
export function difference(a: Maybe, b: Maybe): Maybe {
  return both(a, b, Q.subtract);
}

/** a × b; null where one is missing. */
export function product(a: Maybe, b: Maybe): Maybe {
  return both(a, b, Q.multiply);
}

/** a / b; null where one is missing or b is nought. */
export function quotient(a: Maybe, b: Maybe): Maybe {
  return both(a, b, Q.divide);
}

/** So many times a value, exactly; null where it is missing. */
export function times(a: Maybe, count: Rational): Maybe {
  return product(a, Q.plain(count));
}

/** The value without its sign; null where it is missing or its sign depends on letters. */
export function size(a: Maybe): Maybe {
  const outcome = a && Q.abs(a);
  return outcome?.ok ? outcome.quantity : null;
}

/** The same size on the other side of zero; null where it is missing. */
export function opposite(a: Maybe): Maybe {
  return a && Q.negate(a);
}

/** Whether both are there and the same. */
export function same(a: Maybe, b: Maybe): boolean {
  return a !== null && b !== null && Q.equals(a, b);
}

function both(a: Maybe, b: Maybe, work: (a: Q.Quantity, b: Q.Quantity) => Q.Outcome): Maybe {
  if (a === null || b === null) return null;
  const outcome = work(a, b);
  return outcome.ok ? outcome.quantity : null;
}
