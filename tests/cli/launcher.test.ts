import { type ChildProcess, fork, spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { cpSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import {
  createProtocolConnection,
  IPCMessageReader,
  IPCMessageWriter,
  type ProtocolConnection,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-languageserver/node';
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

/** Greets a server started with some words, as an editor that speaks in its own way does; gives its name and its end. */
async function greeted(child: ChildProcess, speech: ProtocolConnection) {
  speech.listen();
  const ended = once(child, 'exit');
  const params = { processId: process.pid, rootUri: null, capabilities: {} };
  const { serverInfo } = await speech.sendRequest<{ serverInfo: object }>('initialize', params);
  await speech.sendRequest('shutdown');
  await speech.sendNotification('exit');
  const [status] = await ended;
  speech.dispose();
  return { serverInfo, status };
}

function greetedByStdio(folder: string) {
  const words = [join(folder, 'bin/leastwise.js'), 'serve', '--stdio', `--clientProcessId=${process.pid}`];
  const child = spawn(process.execPath, words, { stdio: ['pipe', 'pipe', 'inherit'] });
  return greeted(
    child,
    createProtocolConnection(new StreamMessageReader(child.stdout), new StreamMessageWriter(child.stdin)),
  );
}

const GREETING = { serverInfo: { name: 'leastwise' }, status: 0 };

it('serves without its code cache, and with one that this Node does not take', async () => {
  const folder = copyOfTheCommand();
  expect(await greetedByStdio(folder)).toEqual(GREETING);
  writeFileSync(join(folder, 'dist/server.cache'), 'from another Node');
  expect(await greetedByStdio(folder)).toEqual(GREETING);
  rmSync(join(folder, 'dist/server.cache'));
  expect(await greetedByStdio(folder)).toEqual(GREETING);
});

it.each([
  ['the command', LAUNCHER, ['serve', '--node-ipc']],
  ['the server by itself', join(SERVER, 'dist/server.cjs'), ['--node-ipc']],
])('serves by messages between processes: %s', async (_, program, words) => {
  const child = fork(program, words, { execArgv: [] });
  const speech = createProtocolConnection(new IPCMessageReader(child), new IPCMessageWriter(child));
  expect(await greeted(child, speech)).toEqual(GREETING);
});

it('leaves words that the server does not know to the command', () => {
  expect(leastwise(['serve', '--stdio', '--loudly'])).toMatchObject({ status: 2, stdout: '' });
  expect(leastwise(['serve', '--stdio', '--help']).stdout).toMatch(/^Usage: leastwise serve/);
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
