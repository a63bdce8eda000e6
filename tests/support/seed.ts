import { randomInt } from 'node:crypto';
import fc from 'fast-check';

/**
 * Draws the seed of a file of property tests, tells it, and hands it to fast-check.
 *
 * Every run of the suite tries other notes; `LEASTWISE_SEED=… npx vitest run …` repeats one.
 */
export function drawSeed(file: string): number {
  const given = process.env.LEASTWISE_SEED;
  const seed = given === undefined ? randomInt(2 ** 31) : Number.parseInt(given, 10);
  if (!Number.isSafeInteger(seed)) throw new Error(`LEASTWISE_SEED is no whole number: ${given}`);
  fc.configureGlobal({ ...fc.readConfigureGlobal(), seed });
  console.info(`${file}: LEASTWISE_SEED=${seed}`);
  return seed;
}
