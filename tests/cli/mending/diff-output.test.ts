import { closeSync, openSync, readFileSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { folderOf, leastwise } from '../../support/command.ts';

/** A note with a sure fix (the comma) beside a line that GitHub would take for a command. */
const NOTE = [
  '```measurement hub',
  'main scale: 1 cm = 10 MSD',
  'main scale reading: 2,4 cm',
  '```',
  '::error file=a.md::smuggled',
  '',
].join('\n');

const shown = (env: Readonly<Record<string, string>>, outTo?: number, cwd = folderOf({ 'a.md': NOTE })) =>
  leastwise(['check', '.', '--fix', '--dry-run'], { cwd, env, ...(outTo === undefined ? {} : { outTo }) });

// `::stop-commands::{token}` and `::{token}::`: GitHub's documentation, "Workflow commands for GitHub Actions",
// "Stopping and starting workflow commands" (from memory).
describe('diffs on GitHub', () => {
  it('stand between a stop and a go of commands, with another word each time', () => {
    const runs = [0, 1].map(() => shown({ GITHUB_ACTIONS: 'true' }).stdout);
    const words = runs.map(stdout => /^::stop-commands::([0-9a-f]{32})\n/.exec(stdout)?.[1]);
    expect(words[0]).toBeDefined();
    expect(words[0]).not.toBe(words[1]);
    for (const [at, stdout] of runs.entries()) {
      expect(stdout.endsWith(`::${words[at]}::\n`)).toBe(true);
      expect(stdout).toContain('\n ::error file=a.md::smuggled\n');
    }
  });

  it('are the diff alone elsewhere, and in a file', () => {
    const plain = shown({ GITHUB_ACTIONS: '' }).stdout;
    expect(plain).toMatch(/^--- /);
    const cwd = folderOf({ 'a.md': NOTE });
    const file = join(cwd, 'mend.diff');
    const descriptor = openSync(file, 'w');
    try {
      shown({ GITHUB_ACTIONS: 'true' }, descriptor, cwd);
    } finally {
      closeSync(descriptor);
    }
    expect(readFileSync(file, 'utf8')).toBe(plain);
  });

  it('say nothing where there is nothing to mend', () => {
    const cwd = folderOf({ 'a.md': NOTE.replace('2,4', '2.4') });
    expect(shown({ GITHUB_ACTIONS: 'true' }, undefined, cwd).stdout).toBe('');
  });
});

// `patch` and `git apply` refuse a link, and the same change twice.
it('shows a file of several names once, by the one that is no link', () => {
  const cwd = folderOf({ 'm.md': NOTE });
  for (const link of ['a.md', 'z.md']) symlinkSync('m.md', join(cwd, link));
  const { stdout, stderr } = shown({ GITHUB_ACTIONS: '' }, undefined, cwd);
  expect(stdout.match(/^--- .*/gm)).toEqual(['--- m.md']);
  expect(stderr).toMatch(/; 1 fix to make in 1 note, nothing was written\n$/);
});

// A thread sees only some of the names of a file.
it('shows the same however many notes are dealt with at a time', () => {
  const cwd = folderOf(Object.fromEntries(Array.from({ length: 60 }, (_, at) => [`z${at}.md`, NOTE])));
  for (let at = 0; at < 60; at++) symlinkSync(`z${at}.md`, join(cwd, `a${at}.md`));
  const words = ['check', '.', '--fix', '--dry-run', '--jobs'];
  const alone = leastwise([...words, '1'], { cwd });
  expect(new Set(alone.stdout.match(/^--- .*/gm)).size).toBe(60);
  expect(alone.stderr).toMatch(/; 60 fixes to make in 60 notes, nothing was written\n$/);
  expect(leastwise([...words, '3'], { cwd })).toEqual(alone);
});
