import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { folderOf, leastwise } from '../support/command.ts';
import { PLAIN_NOTE, RIGHT_NOTE, WAIVING_NOTE, WARNING_NOTE, WRONG_NOTE } from '../support/workshop-notes.ts';

const KINDS = [RIGHT_NOTE, WRONG_NOTE, PLAIN_NOTE, WARNING_NOTE, WAIVING_NOTE, `${WRONG_NOTE}\n`.repeat(4)];

/** A bank with something of everything: many batches, short and long notes, notes that cannot be read. */
function bank(): string {
  const files: Record<string, string | Buffer> = {};
  for (let at = 0; at < 100; at++) {
    const path = `bank/shelf-${at >> 5}/q${String(at).padStart(3, '0')}.md`;
    files[path] = at % 23 === 7 ? Buffer.from([0xff, 0xfe, 0x41]) : (KINDS[at % KINDS.length] ?? '');
  }
  return folderOf(files);
}

/** A program that every thread of the command loads first. */
function preload(cwd: string, script: string): Readonly<Record<string, string>> {
  writeFileSync(join(cwd, 'preload.cjs'), script);
  return { NODE_OPTIONS: `--require ${join(cwd, 'preload.cjs')}` };
}

describe('a bank on several threads', () => {
  it.each(['json', 'pretty', 'sarif', 'junit', 'github'])('gives the same %s report as on one', format => {
    const cwd = bank();
    const words = ['check', 'bank', 'gone.md', '--format', format, '--waived'];
    const plain = leastwise([...words, '--jobs', '1'], { cwd });
    expect(plain.status).toBe(2);
    expect(plain.stderr.trimEnd().split('\n')).toHaveLength(6);
    expect(plain.stdout.length).toBeGreaterThan(2000);
    expect(leastwise([...words, '--jobs', '3'], { cwd })).toEqual(plain);
  });

  it('is really shared out', () => {
    const cwd = bank();
    const witness = join(cwd, 'witness');
    const env = preload(
      cwd,
      `const { parentPort, isMainThread } = require('node:worker_threads');
       if (!isMainThread) parentPort.on('message', () =>
         require('node:fs').appendFileSync(${JSON.stringify(witness)}, 'a batch\\n'));`,
    );
    const run = leastwise(['check', 'bank', '--jobs', '2'], { cwd, env });
    expect(run.status).toBe(2);
    expect(readFileSync(witness, 'utf8').trimEnd().split('\n').length).toBeGreaterThan(1);
  });

  it.each([
    ['at once', 'process.exit(1)'],
    ['in a fault', 'throw new Error("worn out")'],
    ['at the first notes', `parentPort.on('message', () => process.exit(1))`],
    ['later', `let left = 2; parentPort.on('message', () => { if (--left === 0) process.exit(1); })`],
  ])('loses nothing by threads that die %s', (_, end) => {
    const cwd = bank();
    const env = preload(
      cwd,
      `const { parentPort, isMainThread } = require('node:worker_threads');
       if (!isMainThread) { ${end} }`,
    );
    const words = ['check', 'bank', '--format', 'json'];
    const plain = leastwise([...words, '--jobs', '1'], { cwd });
    expect(leastwise([...words, '--jobs', '3'], { cwd, env })).toEqual(plain);
  });

  it('mends each note once', () => {
    const words = ['check', 'bank', '--fix', '--format', 'json'];
    const [one, three] = ['1', '3'].map(jobs => {
      const cwd = bank();
      const run = leastwise([...words, '--jobs', jobs], { cwd });
      return { run, text: readFileSync(join(cwd, 'bank/shelf-0/q001.md'), 'utf8') };
    });
    expect(three).toEqual(one);
  });

  it.each(['0', '65', '-1', 'two', '1.5'])('needs a number of threads: %s', jobs => {
    expect(leastwise(['check', `--jobs=${jobs}`, 'a.md'])).toEqual({
      status: 2,
      stdout: '',
      stderr: `leastwise: option '--jobs <number>' argument '${jobs}' is invalid. It is a whole number from 1 to 64\n`,
    });
  });
});
