import { execFileSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { folderOf, LAUNCHER, leastwise } from '../support/command.ts';
import { RIGHT_NOTE, WRONG_NOTE } from '../support/workshop-notes.ts';

const bank = () => {
  const names = Array.from({ length: 60 }, (_, at) => `bank/q${String(at).padStart(2, '0')}.md`);
  return folderOf({
    ...Object.fromEntries(names.map((name, at) => [name, at === 30 ? WRONG_NOTE : RIGHT_NOTE])),
    'bank/q40.md': Buffer.from([0xff, 0xfe]),
  });
};

/** Makes any run a long one: its clock is five hundred times as fast. */
const FAST_CLOCK = `const real = performance.now.bind(performance);
performance.now = () => 500 * real();`;

/** What a terminal of 60 columns gets to see of a run whose report goes where `outTo` leads. */
function seen(cwd: string, outTo: string, clock: string): string {
  writeFileSync(join(cwd, 'clock.cjs'), clock);
  const command = `stty cols 60; '${process.execPath}' '${LAUNCHER}' check bank ${outTo}`;
  const { NO_COLOR, FORCE_COLOR, ...environment } = process.env;
  try {
    return execFileSync('script', ['-qec', command, '/dev/null'], {
      cwd,
      encoding: 'utf8',
      stdio: ['ignore', 'pipe', 'pipe'],
      env: { ...environment, TERM: 'xterm', NODE_OPTIONS: `--require ${join(cwd, 'clock.cjs')}` },
    });
  } catch (error) {
    // A status of 1 or 2 is an answer too.
    return (error as { stdout: string }).stdout;
  }
}

/** What stays on the terminal: a line that is taken back leaves nothing. */
function staying(written: string): string {
  return written
    .split('\r\n')
    .map(line => line.slice(line.lastIndexOf('\r') + 1).replace(/^\x1b\[K/, ''))
    .join('\n');
}

it('a long run shows on a terminal how far it is, and takes that back', () => {
  const cwd = bank();
  const written = seen(cwd, '> report', FAST_CLOCK);
  const lines = [...written.matchAll(/\r(\[[= ]*\] +\d+ % {2}\d+ of 60 notes)\x1b\[K/g)].map(
    match => match[1],
  );
  expect(lines.length).toBeGreaterThan(3);
  for (const line of lines) expect(line?.length).toBeLessThanOrEqual(59);
  expect(staying(written)).toMatch(/^leastwise: bank\/q40\.md is written in UTF-16[^\n]*\n$/);
});

it('the bar leaves no trace in a report on the same terminal', () => {
  const cwd = bank();
  const written = seen(cwd, '', FAST_CLOCK);
  expect(written).toMatch(/of 60 notes\x1b\[K/);
  expect(staying(written)).not.toMatch(/of 60 notes/);
  expect(staying(written)).toMatch(/^59 notes, 59 blocks/m);
});

it('a short run shows none, and neither does one that nobody watches', () => {
  const cwd = bank();
  expect(seen(cwd, '> report', 'performance.now = () => 1000;')).not.toMatch(/of 60 notes|\r[^\n]/);
  const run = leastwise(['check', 'bank'], {
    cwd,
    env: { NODE_OPTIONS: `--require ${join(cwd, 'clock.cjs')}` },
  });
  expect(run.stderr.trimEnd().split('\n')).toHaveLength(1);
});
