import { describe, expect, it } from 'vitest';
import { countEnds } from '../../client/src/count-ends.ts';

describe('a server that ends by itself', () => {
  it('is started again, which is said once, and left alone when it only ends again', () => {
    const ended = countEnds();
    expect([0, 10, 20, 30, 40].map(ended)).toEqual([
      'start-and-say',
      'start',
      'start',
      'start',
      'leave-alone',
    ]);
  });

  it('may end as often as it likes over a long day, and nothing more is said', () => {
    const ended = countEnds();
    const minute = 60_000;
    const hours = Array.from({ length: 500 }, (_, at) => ended(at * minute));
    expect(hours[0]).toBe('start-and-say');
    expect(new Set(hours.slice(1))).toEqual(new Set(['start']));
  });

  it('is counted anew where somebody has started it again', () => {
    const before = countEnds();
    for (const now of [0, 1, 2, 3, 4]) before(now);
    expect(countEnds()(5)).toBe('start-and-say');
  });
});
