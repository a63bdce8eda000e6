import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { countOn } from '../../server/src/cli/bank/count-on.ts';
import { progressLine } from '../../server/src/cli/bank/progress-line.ts';
import { drawSeed } from '../support/seed.ts';

drawSeed('progress-line');

describe('the line that says how far a run is', () => {
  test.each([
    [{ done: 250, whole: 1000 }, 79, '[==========                              ]   25 %  250 of 1000 notes'],
    [
      { done: 1000, whole: 1000 },
      79,
      '[========================================]  100 %  1000 of 1000 notes',
    ],
    [{ done: 250, whole: 1000 }, 40, '[===         ]   25 %  250 of 1000 notes'],
    [{ done: 250, whole: 1000 }, 30, ' 25 %  250 of 1000 notes'],
    [{ done: 250, whole: 1000 }, 20, '250 of 1000 notes'],
    [{ done: 250, whole: 1000 }, 10, ' 25 %'],
    [{ done: 250, whole: 1000 }, 3, ''],
    [{ done: 250, whole: null }, 79, '250 notes checked'],
    [{ done: 250, whole: null }, 10, '250'],
    // The bank has grown since it was counted.
    [{ done: 1001, whole: 1000 }, 79, '1001 notes checked'],
  ])('%j in %i columns', (progress, columns, line) => {
    expect(progressLine(progress, columns)).toBe(line);
  });

  test('never takes more columns than there are, and its bar grows', () => {
    fc.assert(
      fc.property(fc.nat(200_000), fc.nat(200_000), fc.integer({ min: -1, max: 300 }), (a, b, columns) => {
        const [done, whole] = [Math.min(a, b), Math.max(a, b)];
        const line = progressLine({ done, whole }, columns);
        expect(line.length).toBeLessThanOrEqual(Math.max(0, columns));
        expect(line).toMatch(/^[\x20-\x7e]*$/);
        const later = progressLine({ done: whole, whole }, columns);
        expect(later.split('=').length).toBeGreaterThanOrEqual(line.split('=').length);
      }),
    );
  });
});

test('a bank is counted piece by piece, without what is no note', async () => {
  const founds = async function* () {
    for (let at = 0; at < 4500; at++) yield { kind: at % 9 === 0 ? 'trouble' : 'note' };
  };
  const count = countOn(founds);
  expect([await count(), await count(), await count(), await count()]).toEqual([null, null, 4000, 4000]);
});
