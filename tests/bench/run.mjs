// Measures how fast the checker is beside the tools that people know, as ratios: `npm run bench`, `-- --quick` for
// a short form. Prints each ratio with what it must and should reach, and writes tests/bench/results/*.json.
// Two runs of the same code differ by up to a fifth, so a miss does not make the run fail; a missing tool does.
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { availableParallelism, cpus, tmpdir } from 'node:os';
import { join } from 'node:path';
import { prepareCorpus, rows } from './rows.mjs';

const quick = process.argv.includes('--quick');
const size = quick
  ? { seed: 1, count: 200, longBlocks: 40, growth: { small: 200, large: 2000 }, runs: 3 }
  : { seed: 1, count: 2000, longBlocks: 250, growth: { small: 1000, large: 100_000 }, runs: 5 };

const folder = mkdtempSync(join(tmpdir(), 'leastwise-bench-'));
const results = [];
try {
  const corpus = await prepareCorpus(folder, size);
  for (const { name, must, aim, measure } of rows) {
    results.push({ name, must, aim, ...(await outcome(measure, corpus)) });
    console.log(line(results.at(-1)));
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}

const target = join(import.meta.dirname, 'results', quick ? 'quick.json' : 'full.json');
mkdirSync(join(import.meta.dirname, 'results'), { recursive: true });
const machine = {
  node: process.version,
  processor: cpus()[0]?.model ?? 'unknown',
  cores: availableParallelism(),
};
writeFileSync(target, `${JSON.stringify({ version: 1, quick, size, machine, results }, null, 2)}\n`);

const failed = results.filter(result => result.error !== undefined);
if (failed.length > 0) {
  console.error(`\nNOT MEASURED: ${failed.length} of ${results.length} figures, see above`);
  process.exitCode = 1;
}

async function outcome(measure, corpus) {
  try {
    return await measure(corpus);
  } catch (error) {
    return { error: error.message };
  }
}

function line({ name, must, aim, ratio, error }) {
  if (error !== undefined) return `FAILED  ${name}\n        ${error}`;
  const verdict = ratio <= aim ? 'aim' : ratio <= must ? 'must' : 'MISSED';
  return `${verdict.padEnd(6)}  ${ratio.toFixed(3).padStart(7)}  must ${must}, aim ${aim}  ${name}`;
}
