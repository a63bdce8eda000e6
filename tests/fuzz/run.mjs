// Throws spoilt notes at the checker for a while: `npm run fuzz`, `-- --seconds 60`, `-- --seed 7` to see a run again.
// Half of the time single notes are checked and drawn in a thread that may neither hang nor grow; then a folder of such
// files is checked by the command, and each of them has to be in its report or in a sentence on standard error.
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { seededRandom } from '../bench/random.mjs';
import { goodNotes, spoiltNote } from './spoilt-notes.mjs';

const seconds = Number(option('--seconds') ?? 45);
const seed = Number(option('--seed') ?? Date.now() % 1_000_000);
/** What one note may take before it counts as a hang; a good one takes some milliseconds. */
const PATIENCE = 30_000;
const MEGABYTES = 256;
const FILES = 200;
const launcher = join(import.meta.dirname, '../../server/bin/leastwise.js');

console.log(`fuzzing for ${seconds} s, seed ${seed}`);
const random = seededRandom(seed);
const good = goodNotes();
const until = Date.now() + seconds * 1000;
const half = Date.now() + seconds * 500;

let notes = 0;
const worker = newWorker();
while (Date.now() < half) {
  const bytes = spoiltNote(random, good);
  const fault = await checked(bytes.toString('utf8'));
  if (fault !== null) fail(`note ${notes}: ${fault}`, bytes);
  notes += 1;
}
await worker.terminate();

// What the second half sees must not hang on how far the first one came.
const others = seededRandom(seed + 1);
let files = 0;
while (files === 0 || Date.now() < until) {
  const spoilt = Array.from({ length: FILES }, () => spoiltNote(others, good));
  const fault = commandFault(spoilt);
  if (fault !== null) fail(fault.message, spoilt[fault.at ?? 0]);
  files += FILES;
}
console.log(
  `${notes} notes were checked and drawn one by one, ${files} files by the command: nothing to tell`,
);

function newWorker() {
  return new Worker(join(import.meta.dirname, 'check-worker.mjs'), {
    resourceLimits: { maxOldGenerationSizeMb: MEGABYTES },
  });
}

/** What is wrong with a note's check; null for nothing. */
function checked(text) {
  return new Promise(resolve => {
    const done = answer => {
      clearTimeout(watch);
      worker.off('message', done);
      worker.off('error', broken);
      resolve(answer);
    };
    const broken = error => done(`it ends the thread (${error.message})`);
    const watch = setTimeout(() => done(`it takes more than ${PATIENCE / 1000} s`), PATIENCE);
    worker.on('message', done);
    worker.on('error', broken);
    worker.postMessage(text);
  });
}

/** Checks a folder of files by the command; what is wrong with its report, and about which file. */
function commandFault(spoilt) {
  const folder = mkdtempSync(join(tmpdir(), 'leastwise-fuzz-'));
  try {
    const names = spoilt.map((bytes, at) => {
      const name = `note-${String(at).padStart(4, '0')}.md`;
      writeFileSync(join(folder, name), bytes);
      return name;
    });
    const { status, signal, stdout, stderr } = spawnSync(
      process.execPath,
      [`--max-old-space-size=${MEGABYTES}`, launcher, 'check', '.', '--format', 'json', '--no-config'],
      { cwd: folder, encoding: 'utf8', timeout: 10 * PATIENCE, maxBuffer: 2 ** 30 },
    );
    if (![0, 1, 2].includes(status))
      return { message: `the command ends with ${status ?? signal}\n${stderr}` };
    const told = new Set(JSON.parse(stdout).notes.map(({ path }) => path));
    const at = names.findIndex(name => !told.has(name) && !stderr.includes(name));
    if (at !== -1) return { message: `the report does not know ${names[at]}\n${stderr.slice(0, 2000)}`, at };
    if (/fault of leastwise/.test(stderr)) {
      const named = names.findIndex(name => new RegExp(`${name} could not be checked`).test(stderr));
      return { message: stderr.slice(0, 2000), at: named };
    }
    return null;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function fail(message, bytes) {
  const kept = join(import.meta.dirname, 'out', `seed-${seed}.md`);
  mkdirSync(join(import.meta.dirname, 'out'), { recursive: true });
  writeFileSync(kept, bytes);
  console.error(`seed ${seed}: ${message}\nThe note is kept in ${kept}`);
  process.exit(1);
}

function option(name) {
  const at = process.argv.indexOf(name);
  return at === -1 ? undefined : process.argv[at + 1];
}
