import { randomInt } from 'node:crypto';
import fc from 'fast-check';

/** What a run draws from where nothing else is said: the suite says the same of the same code each time. */
const USUAL_SEED = 20_161;

/**
 * Sets the seed of a file of property tests, tells it, and hands it to fast-check.
 *
 * `LEASTWISE_SEED=random npx vitest run …` tries other notes, `LEASTWISE_SEED=1234` repeats such a run.
 */
export function drawSeed(file: string): number {
  const given = process.env.LEASTWISE_SEED ?? String(USUAL_SEED);
  const seed = given === 'random' ? randomInt(2 ** 31) : Number(given);
  if (!Number.isSafeInteger(seed)) throw new Error(`LEASTWISE_SEED is no whole number: ${given}`);
  fc.configureGlobal({ ...fc.readConfigureGlobal(), seed });
  console.info(`${file}: LEASTWISE_SEED=${seed}`);
  return seed;
}
