/** Fails where two values are not the same, and shows both. */
export function equal(actual: unknown, expected: unknown, what: string): void {
  const [is, wanted] = [actual, expected].map(value => JSON.stringify(value, null, 1));
  if (is !== wanted) throw new Error(`${what}\n  is ${is}\n  not ${wanted}`);
}

/** Fails where something does not hold. */
export function holds(condition: boolean, what: string): void {
  if (!condition) throw new Error(what);
}
