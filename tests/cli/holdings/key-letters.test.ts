import { describe, expect, it } from 'vitest';
import { keyLetters } from '../../../server/src/cli/holdings/key-letters.ts';

const FOUR = ['A', 'B', 'C', 'D'];

/** The keys of blocks with four choices, so many of each letter. */
function used(times: Readonly<Record<string, number>>) {
  const keys = keyLetters();
  for (const [letter, count] of Object.entries(times))
    for (let at = 0; at < count; at++) keys.add(FOUR, [letter]);
  return keys.uses();
}

const flagged = (times: Readonly<Record<string, number>>) =>
  used(times).flatMap(({ letter, isFarTooOften }) => (isFarTooOften ? [letter] : []));

describe('which letters are keys', () => {
  it('counts a letter where it is a key and where it could be', () => {
    const keys = keyLetters();
    keys.add(FOUR, ['B']);
    keys.add(['A', 'B'], ['A', 'B']);
    keys.add(['A', 'B', 'C', 'D', 'E'], ['B']);
    expect(keys.uses().map(({ letter, keys: times, choices }) => [letter, times, choices])).toEqual([
      ['A', 1, 3],
      ['B', 3, 3],
      ['C', 0, 2],
      ['D', 0, 2],
      ['E', 0, 1],
    ]);
    // 1/4 + 2/2 + 1/5 for A; 1/5 for E.
    expect(keys.uses().map(({ evenShare }) => evenShare)).toEqual(['1.4', '1.4', '0.4', '0.4', '0.2']);
  });

  it('counts a numbered choice with the letter in its place', () => {
    const keys = keyLetters();
    keys.add(['1', '2', '3'], ['2']);
    keys.add(FOUR, ['B', 'D']);
    expect(keys.uses().map(({ letter, keys: times, choices }) => [letter, times, choices])).toEqual([
      ['A', 0, 2],
      ['B', 2, 2],
      ['C', 0, 2],
      ['D', 1, 1],
    ]);
  });

  // The mean np and the variance np(1 - p) of the binomial distribution: any textbook of probability (from memory).
  // Of 48 keys with p = 1/4 the mean is 12 and the standard deviation √9 = 3, so four of them end at 24.
  it('flags a letter beyond four standard deviations, and not at four', () => {
    expect(flagged({ A: 24, B: 8, C: 8, D: 8 })).toEqual([]);
    expect(flagged({ A: 25, B: 8, C: 8, D: 7 })).toEqual(['A']);
  });

  // Of 1200 keys with p = 1/4 the mean is 300 and the standard deviation √225 = 15: four of them end at 360.
  it('holds a long bank to a narrower share', () => {
    expect(flagged({ A: 360, B: 280, C: 280, D: 280 })).toEqual([]);
    expect(flagged({ A: 361, B: 280, C: 280, D: 279 })).toEqual(['A']);
  });

  it('says nothing of few keys, nor of letters that are hardly ever a key', () => {
    expect(flagged({ A: 9 })).toEqual([]);
    expect(flagged({ A: 14, B: 1 })).toEqual(['A']);
    expect(flagged({ B: 16, C: 16, D: 16 })).toEqual([]);
  });
});
