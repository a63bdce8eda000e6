import { toDecimalText } from '../../engine/decimal-text.ts';
import * as R from '../../engine/rational.ts';

/** How often a letter is a key, and how often it could be. */
export interface LetterUse {
  readonly letter: string;
  /** In how many blocks it is a key. */
  readonly keys: number;
  /** In how many keyed blocks it is a choice. */
  readonly choices: number;
  /** How often it would be a key if all choices were keys alike, as a number with one decimal. */
  readonly evenShare: string;
  /** Whether it is a key far more often than that. */
  readonly isFarTooOften: boolean;
}

/** The keys of many blocks, gathered one by one. */
export interface KeyLetters {
  add(choices: readonly string[], letters: readonly string[]): void;
  /** By letter, in the order of the alphabet. */
  uses(): readonly LetterUse[];
}

interface Tally {
  keys: number;
  choices: number;
  mean: R.Rational;
  variance: R.Rational;
}

/** Fewer keys than this say nothing. */
const LEAST_KEYS = 10;
/** A letter is a key far too often from this many standard deviations above its even share on. */
const DEVIATIONS = 4;

/**
 * Counts which letters are keys. In a block with n choices of which m are keys each letter is one with the chance
 * p = m/n, so that over all blocks a letter's even share is Σp and its variance Σp(1 - p); exact fractions. A letter is
 * used far too often when it is a key at least ten times and lies more than four standard deviations above its share:
 * by Cantelli's inequality that befalls a fair bank at most once in 17 times whatever its size, and by the normal law,
 * which long banks follow, once in some 30,000.
 */
export function keyLetters(): KeyLetters {
  const tallies = new Map<string, Tally>();
  return {
    add(typedChoices, typedLetters) {
      const choices = typedChoices.map(asLetter);
      const letters = typedLetters.map(asLetter);
      const chance = R.rational(Math.min(letters.length, choices.length), choices.length);
      const variance = R.multiply(chance, R.subtract(R.ONE, chance));
      for (const letter of new Set(choices)) {
        const before = tallies.get(letter) ?? { keys: 0, choices: 0, mean: R.ZERO, variance: R.ZERO };
        tallies.set(letter, {
          keys: before.keys + (letters.includes(letter) ? 1 : 0),
          choices: before.choices + 1,
          mean: R.add(before.mean, chance),
          variance: R.add(before.variance, variance),
        });
      }
    },
    uses: () =>
      [...tallies]
        .sort(([a], [b]) => (a < b ? -1 : 1))
        .map(([letter, { keys, choices, mean, variance }]) => ({
          letter,
          keys,
          choices,
          evenShare: toDecimalText(mean, 1),
          isFarTooOften: isFarAbove(keys, mean, variance),
        })),
  };
}

/** Choices that are numbered count with those that have letters: the first is A. */
function asLetter(typed: string): string {
  const number = /^\d{1,2}$/.test(typed) ? Number(typed) : 0;
  return 1 <= number && number <= LETTERS.length ? LETTERS.charAt(number - 1) : typed;
}

const LETTERS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ';

/** keys - mean > 4 × √variance, squared so that nothing has to be rounded. */
function isFarAbove(keys: number, mean: R.Rational, variance: R.Rational): boolean {
  const above = R.subtract(R.rational(keys), mean);
  if (keys < LEAST_KEYS || R.sign(above) <= 0) return false;
  return R.compare(R.multiply(above, above), R.multiply(R.rational(DEVIATIONS ** 2), variance)) > 0;
}
