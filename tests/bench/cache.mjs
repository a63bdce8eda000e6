import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { compare, programTime } from './measure.mjs';

const launcher = join(import.meta.dirname, '../../server/bin/leastwise.js');

/** What a cache gains where nothing has changed since the last run, and what it costs to fill it. */
export const cacheRows = [
  {
    name: 'leastwise check --cache, nothing changed ÷ without a cache, whole process',
    must: 0.5,
    aim: 0.15,
    measure: async ({ folder, runs }) =>
      withCache(folder, cache => compare(checkTime(folder, cache), checkTime(folder), runs)),
  },
  {
    name: 'leastwise check --cache, filled anew ÷ without a cache, whole process',
    must: 1.5,
    aim: 1.15,
    measure: async ({ folder, runs }) =>
      withCache(folder, cache =>
        compare(
          run => {
            rmSync(cache, { recursive: true, force: true });
            return checkTime(folder, cache)(run);
          },
          checkTime(folder),
          runs,
        ),
      ),
  },
];

function withCache(folder, measure) {
  const cache = join(folder, '../cache');
  try {
    return measure(cache);
  } finally {
    rmSync(cache, { recursive: true, force: true });
  }
}

function checkTime(folder, cache) {
  const words = cache === undefined ? [] : ['--cache', cache];
  return () => programTime([launcher, 'check', folder, ...words], [0]);
}
