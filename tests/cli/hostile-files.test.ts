import { execFileSync, spawnSync } from 'node:child_process';
import { closeSync, mkdirSync, openSync, symlinkSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readNote } from '../../server/src/cli/read.ts';
import { notesInFolder } from '../../server/src/cli/walk.ts';
import { folderOf, LAUNCHER, leastwise } from '../support/command.ts';
import { RIGHT_NOTE, WRONG_NOTE } from '../support/workshop-notes.ts';

/** The command with standard output or standard error led to a device; it must come to an end. */
function ledTo(words: readonly string[], device: string, cwd: string, which: 'out' | 'error') {
  const file = openSync(device, 'w');
  try {
    return leastwise(words, { cwd, [which === 'out' ? 'outTo' : 'errorTo']: file });
  } finally {
    closeSync(file);
  }
}

describe('a bank in which nearly everything is wrong', () => {
  const cwd = () => {
    const folder = folderOf({
      'bank/a.md': RIGHT_NOTE,
      'bank/folder.md/a.md': RIGHT_NOTE,
      'bank/huge.md': '',
      'bank/new\nline \x1b[31m.md': RIGHT_NOTE,
      'bank/z.md': RIGHT_NOTE,
    });
    const at = (name: string) => join(folder, 'bank', name);
    execFileSync('mkfifo', [at('pipe.md')]);
    symlinkSync('ring.md', at('ring.md'));
    symlinkSync('gone.md', at('nowhere.md'));
    symlinkSync('.', at('round'));
    symlinkSync('..', at('up.md'));
    symlinkSync('/dev/zero', at('zero.md'));
    // The memory of the reading process: it may be opened, and no reading of it succeeds, whoever tries.
    symlinkSync('/proc/self/mem', at('memory.md'));
    truncateSync(at('huge.md'), 2 ** 31);
    writeFileSync(Buffer.concat([Buffer.from(at('caf')), Buffer.from([0xe9]), Buffer.from('.md')]), '');
    return folder;
  };

  it('is told sentence by sentence, and the rest of it is checked', () => {
    const folder = cwd();
    const run = leastwise(['check', 'bank', '--format', 'json'], { cwd: folder });
    expect(run.status).toBe(2);
    expect(run.stderr.trimEnd().split('\n')).toEqual([
      'leastwise: bank/caf\ufffd.md cannot be opened: its name is not written in UTF-8, so give it another one',
      'leastwise: bank/huge.md is too large for a note: at most 64 MB are read',
      'leastwise: bank/memory.md could not be read (EIO)',
      'leastwise: there is no file or folder bank/nowhere.md',
      'leastwise: bank/pipe.md is a pipe between programs, not a note',
      'leastwise: bank/ring.md is a link that leads back to itself',
      'leastwise: bank/zero.md is a device, not a note',
    ]);
    const paths = JSON.parse(run.stdout).notes.map((note: { path: string }) => note.path);
    expect(paths).toEqual(['bank/a.md', 'bank/folder.md/a.md', 'bank/new\nline \x1b[31m.md', 'bank/z.md']);

    const onThreads = leastwise(['check', 'bank', '--format', 'json', '--jobs', '3'], { cwd: folder });
    expect(onThreads).toEqual(run);
  });

  it('is told as well where its notes are named', () => {
    const run = leastwise(['check', 'bank/pipe.md', 'bank/zero.md', 'bank/a.md'], { cwd: cwd() });
    expect(run).toMatchObject({
      status: 2,
      stderr:
        'leastwise: bank/pipe.md is a pipe between programs, not a note\n' +
        'leastwise: bank/zero.md is a device, not a note\n',
      stdout: expect.stringMatching(/^1 note, /),
    });
  });
});

// Linux alone takes any bytes for a name.
it.runIf(process.platform === 'linux')('a note whose name is no text does not pass for another note', () => {
  const cwd = folderOf({ 'x\ufffd.md': RIGHT_NOTE, 'y\ufffd/a.md': RIGHT_NOTE });
  const bytes = (name: string) => Buffer.concat([Buffer.from(`${cwd}/`), Buffer.from(name, 'latin1')]);
  writeFileSync(bytes('x\xff.md'), WRONG_NOTE);
  writeFileSync(bytes('z\xff.txt'), '');
  mkdirSync(bytes('y\xff'));
  const sentence = (name: string) =>
    `leastwise: ${name} cannot be opened: its name is not written in UTF-8, so give it another one\n`;
  const all = leastwise(['check', '.'], { cwd });
  expect(all.stderr).toBe(sentence('x\ufffd.md') + sentence('y\ufffd'));
  expect(all).toMatchObject({ status: 2, stdout: expect.stringMatching(/^2 notes, /) });
  expect(leastwise(['check', '*.md'], { cwd })).toMatchObject({ status: 2, stderr: sentence('x\ufffd.md') });
  expect(leastwise(['check', 'x\ufffd.md'], { cwd })).toMatchObject({ status: 2, stdout: '' });
  expect(leastwise(['check', 'y\ufffd/a.md'], { cwd }).status).toBe(0);
});

it('a note that a shell hands over through a pipe is read', () => {
  const cwd = folderOf({ 'a.md': RIGHT_NOTE });
  const command = `"$1" "$2" check <(cat a.md)`;
  const words = ['-c', command, 'bash', process.execPath, LAUNCHER];
  expect(execFileSync('bash', words, { cwd, encoding: 'utf8' })).toMatch(/^1 note, 1 block/);
});

describe('what stands where a file of another kind is wanted', () => {
  const cwd = () => {
    const folder = folderOf({ 'a.md': RIGHT_NOTE, 'folder/': '' });
    execFileSync('mkfifo', [join(folder, 'pipe')]);
    return folder;
  };
  it.each([
    [['merge', 'pipe'], 'pipe is not a file'],
    [['check', 'a.md', '--baseline', 'pipe'], 'pipe is a pipe between programs, not a baseline'],
    [['check', 'a.md', '--baseline', '/dev/zero'], '/dev/zero is a device, not a baseline'],
    [['check', 'a.md', '--baseline', 'folder'], 'folder is a folder, not a baseline'],
    [
      ['check', 'a.md', '--baseline', 'gone/b.json'],
      'there is no baseline gone/b.json: --record-baseline writes one',
    ],
    [['check', 'a.md', '--config', 'pipe'], 'pipe is a pipe between programs, not a configuration'],
    [['check', 'a.md', '--config', 'folder'], 'folder is a folder, not a configuration'],
  ])('is told at once: %j', (words, sentence) => {
    expect(leastwise(words, { cwd: cwd() })).toEqual({
      status: 2,
      stdout: '',
      stderr: `leastwise: ${sentence}\n`,
    });
  });

  it.each([
    ['leastwise.config.json', 'leastwise.config.json is a link that leads back to itself'],
    ['.leastwiseignore', '.leastwiseignore is a link that leads back to itself'],
  ])('is told where %s is a link in a ring, and not passed over', (name, sentence) => {
    const folder = cwd();
    symlinkSync(name, join(folder, name));
    expect(leastwise(['check', '.'], { cwd: folder })).toMatchObject({
      status: 2,
      stderr: `leastwise: ${sentence}\n`,
    });
  });

  it.each(['leastwise.config.json', '.leastwiseignore'])('is told where %s is no file', name => {
    const folder = folderOf({ 'a.md': RIGHT_NOTE, 'set/b.md': RIGHT_NOTE, [`set/${name}/`]: '' });
    execFileSync('mkfifo', [join(folder, name)]);
    expect(leastwise(['check', '.'], { cwd: folder })).toMatchObject({
      status: 2,
      stderr:
        `leastwise: ${name} is a pipe between programs, not a configuration\n` +
        `leastwise: set/${name} is a folder, not a configuration\n`,
    });
  });
});

it('a note that vanishes after it was found is told', () => {
  const cwd = folderOf({ 'a.md': RIGHT_NOTE });
  const [found] = notesInFolder(cwd);
  execFileSync('rm', [join(cwd, 'a.md')]);
  expect(found).toEqual({ kind: 'note', path: join(cwd, 'a.md') });
  expect(readNote(join(cwd, 'a.md'), 'a.md')).toEqual({
    ok: false,
    trouble: 'there is no file or folder a.md',
  });
});

it('a full disk is told, and the status says so even where nobody can be told', () => {
  const cwd = folderOf({ 'a.md': RIGHT_NOTE });
  expect(ledTo(['check', 'a.md'], '/dev/full', cwd, 'out')).toMatchObject({
    status: 2,
    stderr: 'leastwise: the report could not be written: there is no room left\n',
  });
  expect(ledTo(['check', 'gone.md', 'a.md'], '/dev/full', cwd, 'error')).toMatchObject({
    status: 2,
    stdout: expect.stringMatching(/^1 note, 1 block/),
  });
});

it('standard input that does not end is given up', () => {
  const device = openSync('/dev/zero', 'r');
  const run = leastwise(['check', '-'], { inputFrom: device });
  closeSync(device);
  expect(run).toMatchObject({
    status: 2,
    stdout: '',
    stderr: 'leastwise: the note on standard input is too large for a note: at most 64 MB are read\n',
  });
});

describe('folders', () => {
  it('with five thousand notes are walked in the order of their names', () => {
    const names = Array.from({ length: 5000 }, (_, at) => `q${String(at).padStart(4, '0')}.md`);
    const cwd = folderOf(Object.fromEntries(names.map(name => [name, ''])));
    const run = leastwise(['check', '.', '--format', 'json'], { cwd });
    expect(run).toMatchObject({ status: 0, stderr: '' });
    expect(JSON.parse(run.stdout).notes.map((note: { path: string }) => note.path)).toEqual(names);
  });

  it('in folders are walked as deep as a path can be long', () => {
    const cwd = folderOf({ 'z.md': RIGHT_NOTE });
    // Deeper than any path may be: each command goes a part of the way.
    const part = `${'d/'.repeat(1000)}`;
    const script = `for way in 1 2 3; do mkdir -p ${part} && cd ${part} && cp "$0/z.md" x.md; done`;
    execFileSync('bash', ['-c', script, cwd], { cwd });
    const run = leastwise(['check', '.', '--format', 'json'], { cwd });
    expect(run.status).toBe(2);
    expect(run.stderr).toMatch(/^leastwise: (d\/){50}… is too long for the path of a file\n$/);
    const paths = JSON.parse(run.stdout).notes.map((note: { path: string }) => note.path);
    expect(paths).toEqual([`${part}${part}x.md`, `${part}x.md`, 'z.md']);
    execFileSync('rm', ['-rf', join(cwd, 'd')]);
  });
});

// Elsewhere no folder can go in which somebody is.
describe.runIf(process.platform === 'linux')('in a folder that is gone', () => {
  const run = (words: readonly string[]) => {
    const cwd = folderOf({ 'bank/a.md': RIGHT_NOTE, 'bank/b.md': RIGHT_NOTE, 'gone/': '' });
    const typed = words.map(word => word.replace('BANK', join(cwd, 'bank')));
    const script = 'cd "$1" && rmdir "$1" && shift && exec "$@"';
    const { status, stdout, stderr } = spawnSync(
      'sh',
      ['-c', script, 'sh', join(cwd, 'gone'), process.execPath, LAUNCHER, ...typed],
      { encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe'], timeout: 60_000 },
    );
    return { status, stdout, stderr: stderr.replaceAll(cwd, '') };
  };
  const told = (sentence: string) => `leastwise: ${sentence}: it is gone, or its folder is`;

  it.each([
    [['BANK/a.md'], 1],
    [['BANK'], 2],
    [['BANK/*.md'], 2],
    [['BANK', '--jobs', '2'], 2],
  ])('whole paths are checked: %j', (words, notes) => {
    expect(run(['check', ...words])).toEqual({
      status: 0,
      stdout: expect.stringMatching(`^${notes} notes?, `),
      stderr: '',
    });
  });

  it.each([
    [['--baseline', 'b.json', '--record-baseline'], 2, `${told('b.json could not be written')}\n`],
    [['--report', 'json=set/r.json'], 2, `${told('set/r.json could not be written')}\n`],
    [
      ['--cache'],
      0,
      `${told('.leastwise-cache could not be written')}, so nothing is kept for the next run\n`,
    ],
    [['a.md'], 2, 'leastwise: there is no file or folder a.md\n'],
  ])('what belongs there is told: %j', (words, status, stderr) => {
    expect(run(['check', 'BANK/a.md', ...words])).toMatchObject({ status, stderr });
  });
});
