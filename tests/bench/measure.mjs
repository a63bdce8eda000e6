import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/**
 * Measures two sides in turn, A B A B …, after one run of each that does not count; gives the medians and their
 * ratio. The machine's mood of the moment meets both. Each side gets the number of the run, 0 for the first that counts,
 * -1 for the one before.
 */
export function compare(ours, theirs, runs) {
  ours(-1);
  theirs(-1);
  const measured = { ours: [], theirs: [] };
  for (let run = 0; run < runs; run++) {
    measured.ours.push(ours(run));
    measured.theirs.push(theirs(run));
  }
  const [a, b] = [median(measured.ours), median(measured.theirs)];
  return { ratio: a / b, ours: a, theirs: b, runs: measured };
}

export function median(values) {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
}

/** The milliseconds that some work takes. */
export function timed(work) {
  const start = performance.now();
  work();
  return performance.now() - start;
}

/** The milliseconds that a Node program takes from start to end; `exits` are the statuses that mean it did its work. */
export function programTime(args, exits) {
  return timed(() => run(args, exits));
}

/** The most memory that a Node program had resident, in kilobytes. */
export function programMemory(args, exits) {
  const report = join(tmpdir(), `leastwise-bench-memory-${process.pid}`);
  rmSync(report, { force: true });
  run(['--require', join(import.meta.dirname, 'report-memory.cjs'), ...args], exits, {
    MEMORY_REPORT: report,
  });
  if (!existsSync(report)) throw new Error(`no report of its memory from: node ${args.join(' ')}`);
  const kilobytes = Number(readFileSync(report, 'utf8'));
  rmSync(report);
  return kilobytes;
}

function run(args, exits, environment = {}) {
  const { status, signal, stderr, error } = spawnSync(process.execPath, args, {
    stdio: ['ignore', 'ignore', 'pipe'],
    env: { ...process.env, NO_COLOR: '1', ...environment },
    maxBuffer: 2 ** 30,
  });
  if (error !== undefined) throw error;
  if (!exits.includes(status)) {
    throw new Error(
      `node ${args.join(' ')} ended with ${status ?? signal}\n${String(stderr).slice(0, 2000)}`,
    );
  }
}
