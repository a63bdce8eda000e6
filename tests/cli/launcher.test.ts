import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { cpSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { folderOf, LAUNCHER, leastwise } from '../support/command.ts';
import { RIGHT_NOTE, WRONG_NOTE } from '../support/workshop-notes.ts';

const SERVER = join(LAUNCHER, '../..');

/** A copy of the built command that a test may spoil. */
function copyOfTheCommand(): string {
  const folder = folderOf({ 'bin/': '', 'dist/': '' });
  for (const part of ['bin', 'dist']) cpSync(join(SERVER, part), join(folder, part), { recursive: true });
  return folder;
}

function runCopy(folder: string) {
  return spawnSync(process.execPath, [join(folder, 'bin/leastwise.js'), 'check', '-'], {
    input: RIGHT_NOTE,
    encoding: 'utf8',
  });
}

it('says what to do where the command is not built', () => {
  const folder = copyOfTheCommand();
  rmSync(join(folder, 'dist'), { recursive: true });
  expect(runCopy(folder)).toMatchObject({
    status: 2,
    stdout: '',
    stderr: 'leastwise: the command is not built yet: run `npm run build` once\n',
  });
});

it('works without its code cache, and with one that this Node does not take', () => {
  const folder = copyOfTheCommand();
  const expected = runCopy(folder).stdout;
  expect(expected).toMatch(/^1 note, 1 block/);
  writeFileSync(join(folder, 'dist/cli.cache'), 'from another Node');
  expect(runCopy(folder)).toMatchObject({ status: 0, stdout: expected, stderr: '' });
  rmSync(join(folder, 'dist/cli.cache'));
  expect(runCopy(folder)).toMatchObject({ status: 0, stdout: expected, stderr: '' });
});

it('can be started through a link, as a package manager installs it', () => {
  const link = join(folderOf({}), 'leastwise');
  spawnSync('ln', ['-s', LAUNCHER, link]);
  const run = spawnSync(link, ['--version'], { encoding: 'utf8' });
  expect(run).toMatchObject({ status: 0, stdout: leastwise(['--version']).stdout });
});

it('ends quietly when its reader has seen enough', async () => {
  const names = Array.from({ length: 60 }, (_, at) => [`q${at}.md`, WRONG_NOTE]);
  const cwd = folderOf(Object.fromEntries(names));
  const child = spawn(process.execPath, [LAUNCHER, 'check', '.'], { cwd, stdio: ['ignore', 'pipe', 'pipe'] });
  child.stdout.destroy();
  let complaints = '';
  child.stderr.on('data', piece => {
    complaints += piece;
  });
  const [status] = await once(child, 'close');
  expect(complaints).toBe('');
  expect(status).toBe(1);
});
