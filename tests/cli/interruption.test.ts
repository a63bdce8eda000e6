import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { folderOf, LAUNCHER, leastwise } from '../support/command.ts';
import { RIGHT_NOTE } from '../support/workshop-notes.ts';

const NAMES = Array.from({ length: 3000 }, (_, at) => `q${String(at).padStart(4, '0')}.md`);
const bank = () => folderOf(Object.fromEntries(NAMES.map(name => [`bank/${name}`, RIGHT_NOTE])));

function started(cwd: string, words: readonly string[]): ChildProcess {
  return spawn(process.execPath, [LAUNCHER, 'check', 'bank', '--format', 'json', ...words], {
    cwd,
    stdio: ['ignore', 'pipe', 'pipe'],
  });
}

/** What a stream says until it ends; `at` is called at the first of it. */
async function heard(
  stream: NodeJS.ReadableStream | null,
  at: () => void = () => undefined,
): Promise<string> {
  let text = '';
  if (stream === null) return text;
  for await (const piece of stream) {
    if (text === '') at();
    text += String(piece);
  }
  return text;
}

/** Whether a process has a listener for a signal of that number. */
function catches(pid: number | undefined, signal: number): boolean {
  const caught = /^SigCgt:\s*(\w+)/m.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1] ?? '0';
  return ((BigInt(`0x${caught}`) >> BigInt(signal - 1)) & 1n) === 1n;
}

describe('a run that is interrupted', () => {
  it.each([
    ['SIGINT', '1'],
    ['SIGINT', '3'],
    ['SIGTERM', '2'],
    ['SIGHUP', '1'],
  ] as const)('by %s, on %s threads, closes its report and says how far it came', async (signal, jobs) => {
    const run = started(bank(), ['--jobs', jobs]);
    const end = once(run, 'exit');
    const [stdout, stderr] = await Promise.all([
      heard(run.stdout, () => run.kill(signal)),
      heard(run.stderr),
    ]);
    expect(await end).toEqual([2, null]);
    const { notes, summary } = JSON.parse(stdout);
    const done = notes.length;
    expect(0 < done && done < NAMES.length).toBe(true);
    expect(notes.map((note: { path: string }) => note.path)).toEqual(
      NAMES.slice(0, done).map(name => `bank/${name}`),
    );
    expect(summary).toEqual({ notes: done, blocks: done, claims: done * 5, errors: 0, warnings: 0 });
    expect(stderr).toBe(
      `leastwise: the check was interrupted: ${done} notes were checked, and the report holds no others\n`,
    );
  });

  it.each(['1', '2'])('says so in its share, on %s threads, and is no part of a whole', async jobs => {
    const cwd = bank();
    const run = started(cwd, ['--shard', '1/2', '--jobs', jobs]);
    const end = once(run, 'exit');
    const [stdout] = await Promise.all([heard(run.stdout, () => run.kill('SIGTERM')), heard(run.stderr)]);
    expect(await end).toEqual([2, null]);
    expect(JSON.parse(stdout).share.bank).toBe(null);
    writeFileSync(join(cwd, 'share.json'), stdout);
    expect(leastwise(['merge', 'share.json'], { cwd })).toEqual({
      status: 2,
      stdout: '',
      stderr: 'leastwise: share.json is the report of a check that was interrupted: check share 1/2 again\n',
    });
  });

  it.runIf(process.platform === 'linux')('counts what it has seen where it is a summary', async () => {
    const run = spawn(process.execPath, [LAUNCHER, 'summary', 'bank', '--format', 'json'], {
      cwd: bank(),
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    const end = once(run, 'exit');
    const texts = Promise.all([heard(run.stdout), heard(run.stderr)]);
    // It says nothing before its end, so the system must tell when it hears; the last that it listens to is SIGHUP, 1.
    while (!catches(run.pid, 1)) await new Promise(resolve => setImmediate(resolve));
    run.kill('SIGTERM');
    const [stdout, stderr] = await texts;
    expect(await end).toEqual([2, null]);
    const { notes } = JSON.parse(stdout);
    expect(notes).toBeLessThan(NAMES.length);
    expect(stderr).toMatch(
      new RegExp(`^leastwise: the count was interrupted: ${notes} notes? w[a-z]+ counted, and the summary`),
    );
  });

  it('for the second time ends at once', async () => {
    const run = started(bank(), []);
    let ended: readonly unknown[] | null = null;
    const end = once(run, 'exit').then(how => {
      ended = how;
    });
    // Nobody reads on, so that the first wish cannot be followed to its end.
    await once(run.stdout as NodeJS.ReadableStream, 'readable');
    run.kill('SIGINT');
    const deadline = Date.now() + 60_000;
    while (ended === null && Date.now() < deadline) {
      run.kill('SIGINT');
      await new Promise(resolve => setImmediate(resolve));
    }
    await end;
    expect(ended).toEqual([null, 'SIGINT']);
  });

  it('while it waits for standard input ends as any other program', async () => {
    const run = spawn(process.execPath, [LAUNCHER, 'check', '-'], { stdio: ['pipe', 'pipe', 'pipe'] });
    const end = once(run, 'exit');
    // It has read that much once the pipe has room for no more and then for some again.
    if (!run.stdin.write('#'.repeat(2 ** 20))) await once(run.stdin, 'drain');
    run.kill('SIGINT');
    expect(await end).toEqual([null, 'SIGINT']);
  });
});
