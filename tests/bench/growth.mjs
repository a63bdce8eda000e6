import { linkSync, mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { note } from './corpus.mjs';
import { median, programMemory, timed } from './measure.mjs';

const launcher = join(import.meta.dirname, '../../server/bin/leastwise.js');

/** So many different notes there are; a larger bank has them again under other names. */
const POOL = 2000;
/** How many names one file may bear, well below what file systems allow. */
const NAMES_A_FILE = 1000;

/** What must not grow with the bank: the time that a note takes and the memory of the run, each with as many threads. */
export const growthRows = [
  {
    name: 'time a note: large bank ÷ small bank, one thread each',
    must: 1.15,
    aim: 1,
    measure: async corpus => ratio(grown(corpus, 1), 'timeANote'),
  },
  {
    name: 'peak memory: the same',
    must: 1.2,
    aim: 1,
    measure: async corpus => ratio(grown(corpus, 1), 'memory'),
  },
  {
    name: 'time a note: large bank ÷ small bank, two threads each',
    must: 1.15,
    aim: 1,
    measure: async corpus => ratio(grown(corpus, 2), 'timeANote'),
  },
  {
    name: 'peak memory: the same on two threads',
    must: 1.2,
    aim: 1,
    measure: async corpus => ratio(grown(corpus, 2), 'memory'),
  },
  {
    name: 'time of a large bank: two threads ÷ one',
    must: 1,
    aim: 0.6,
    measure: async corpus => {
      const [two, one] = [grown(corpus, 2).large, grown(corpus, 1).large].map(({ timeANote }) => timeANote);
      return { ratio: two / one, ours: two, theirs: one, runs: { ours: [two], theirs: [one] } };
    },
  },
];

/**
 * Time and memory of a run over a large bank and over a small one. The large one takes minutes and is run once,
 * between runs over the small one, which is run as often as it takes to have a median.
 */
function grown(corpus, jobs) {
  corpus.grown ??= new Map();
  const known = corpus.grown.get(jobs);
  if (known !== undefined) return known;
  corpus.banks ??= writtenBanks(corpus);
  const { small, large } = corpus.banks;
  const before = [1, 2].map(() => measured(small, jobs));
  const result = { large: measured(large, jobs), small: [...before, measured(small, jobs)] };
  corpus.grown.set(jobs, result);
  return result;
}

function ratio({ large, small }, what) {
  const [ours, theirs] = [large[what], small.map(run => run[what])];
  return { ratio: ours / median(theirs), ours, theirs: median(theirs), runs: { ours: [ours], theirs } };
}

/** Milliseconds a note, and kilobytes. */
function measured({ folder, count }, jobs) {
  let memory = 0;
  const time = timed(() => {
    memory = programMemory([launcher, 'check', '--jobs', String(jobs), folder], [0]);
  });
  return { timeANote: time / count, memory };
}

/** The banks lie beside the notes of the other rows, and go with them. */
function writtenBanks({ folder, growth }) {
  const bank = (name, count) => {
    const home = join(folder, '..', name);
    writeBank(home, growth.seed, count);
    return { folder: home, count };
  };
  return { small: bank('small-bank', growth.small), large: bank('large-bank', growth.large) };
}

/**
 * Writes a bank of `count` notes, 64 in a folder. The notes of a large one repeat those of the pool, so that it is
 * written quickly: one file bears many names.
 */
export function writeBank(folder, seed, count) {
  const pool = [];
  for (let index = 0; index < count; index++) {
    const shelf = join(folder, `shelf-${index >> 6}`);
    if (index % 64 === 0) mkdirSync(shelf, { recursive: true });
    const path = join(shelf, `card-${index}.md`);
    const [at, round] = [index % POOL, Math.floor(index / POOL)];
    if (round % NAMES_A_FILE !== 0) linkSync(pool[at], path);
    else {
      writeFileSync(path, note(seed + at));
      pool[at] = path;
    }
  }
}
