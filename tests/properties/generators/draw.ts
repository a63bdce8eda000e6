import fc from 'fast-check';

/** Where the choices of one random note come from; small choices first, so that a failure shrinks to a plain note. */
export type Draw = fc.GeneratorValue;

export function whole(draw: Draw, least: number, most: number): number {
  return draw(fc.integer, { min: least, max: most });
}

export function pick<T>(draw: Draw, choices: readonly T[]): T {
  const choice = choices[whole(draw, 0, choices.length - 1)];
  if (choice === undefined) throw new Error('nothing to choose from');
  return choice;
}

export function chance(draw: Draw): boolean {
  return draw(fc.boolean);
}

export function shuffled<T>(draw: Draw, items: readonly T[]): T[] {
  const left = [...items];
  const order: T[] = [];
  while (left.length > 0) order.push(...left.splice(whole(draw, 0, left.length - 1), 1));
  return order;
}
