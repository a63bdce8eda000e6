import type { FunctionName } from '../engine/expression.ts';

/** The function that a word means, whatever its case: `sin`, `Sqrt`, `asin`; null for no function. */
export function functionNamed(word: string): FunctionName | null {
  return FUNCTIONS.get(word.toLowerCase()) ?? null;
}

/** What `sin^-1` means: the angle whose sine is given; null for a function that is not turned round so. */
export function inverseOf(name: FunctionName): FunctionName | null {
  return INVERSES.get(name) ?? null;
}

const FUNCTIONS: ReadonlyMap<string, FunctionName> = new Map([
  ['sqrt', 'sqrt'],
  ['sin', 'sin'],
  ['cos', 'cos'],
  ['tan', 'tan'],
  ['arcsin', 'arcsin'],
  ['arccos', 'arccos'],
  ['arctan', 'arctan'],
  ['asin', 'arcsin'],
  ['acos', 'arccos'],
  ['atan', 'arctan'],
  ['abs', 'abs'],
  ['mean', 'mean'],
  ['mod', 'mod'],
]);

const INVERSES: ReadonlyMap<FunctionName, FunctionName> = new Map([
  ['sin', 'arcsin'],
  ['cos', 'arccos'],
  ['tan', 'arctan'],
]);
