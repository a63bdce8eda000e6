import { spawnSync } from 'node:child_process';
import {
  chmodSync,
  cpSync,
  linkSync,
  lstatSync,
  readdirSync,
  readFileSync,
  readlinkSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { fixAllEdits } from '../../../server/src/actions/fix-all.ts';
import { withEdits } from '../../../server/src/actions/settled-edits.ts';
import { DEFAULT_SETTINGS } from '../../../server/src/checks/settings.ts';
import { writeNote } from '../../../server/src/cli/write-note.ts';
import { folderOf, leastwise } from '../../support/command.ts';
import { PLAIN_NOTE, RIGHT_NOTE, WRONG_NOTE } from '../../support/workshop-notes.ts';

const mended = (text: string): string => withEdits(text, fixAllEdits(text));
const read = (folder: string, path: string): string => readFileSync(join(folder, path), 'utf8');
const lastLine = (text: string): string | undefined => text.trimEnd().split('\n').at(-1);
const careless = (): string => {
  const folder = folderOf({});
  cpSync(new URL('../../../examples/careless', import.meta.url).pathname, join(folder, 'notes'), {
    recursive: true,
  });
  return folder;
};

describe('--fix', () => {
  it('makes what an editor makes of all sure fixes, and reports what remains', () => {
    const folder = careless();
    const names = readdirSync(join(folder, 'notes'));
    const expected = names.map(name => mended(read(folder, `notes/${name}`)));
    const first = leastwise(['check', 'notes', '--fix'], { cwd: folder });
    expect(names.map(name => read(folder, `notes/${name}`))).toEqual(expected);
    expect(first).toMatchObject({ status: 1, stderr: '' });
    expect(lastLine(first.stdout)).toMatch(/^9 notes, .* checked: \d+ errors.*; \d+ fixes made in 8 notes$/);

    const plain = leastwise(['check', 'notes'], { cwd: folder });
    const second = leastwise(['check', 'notes', '--fix'], { cwd: folder });
    expect(second.stdout.trimEnd()).toBe(`${plain.stdout.trimEnd()}; nothing was mended`);
    expect(names.map(name => read(folder, `notes/${name}`))).toEqual(expected);
    const json = ['check', 'notes', '--format', 'json'];
    expect(leastwise([...json, '--fix'], { cwd: folder })).toEqual(leastwise(json, { cwd: folder }));
  });

  it('keeps a byte-order mark, the line ends, a missing last one, and the rights', () => {
    const dressed = `\ufeff${WRONG_NOTE.trimEnd().replaceAll('\n', '\r\n')}`;
    const folder = folderOf({ 'q1.md': dressed });
    chmodSync(join(folder, 'q1.md'), 0o640);
    const run = leastwise(['check', '--fix', 'q1.md'], { cwd: folder });
    expect(run).toMatchObject({ status: 0, stderr: '' });
    expect(lastLine(run.stdout)).toBe(
      '1 note, 1 block, 5 claims checked: nothing to correct; 1 fix made in 1 note',
    );
    expect(read(folder, 'q1.md')).toBe(`\ufeff${RIGHT_NOTE.trimEnd().replaceAll('\n', '\r\n')}`);
    expect(statSync(join(folder, 'q1.md')).mode & 0o777).toBe(0o640);
    expect(readdirSync(folder)).toEqual(['q1.md']);
  });

  it('touches no note that needs nothing', () => {
    const folder = folderOf({ 'right.md': RIGHT_NOTE, 'plain.md': PLAIN_NOTE });
    const before = ['right.md', 'plain.md'].map(name => statSync(join(folder, name)).ino);
    expect(leastwise(['check', '--fix', '.'], { cwd: folder }).status).toBe(0);
    expect(['right.md', 'plain.md'].map(name => statSync(join(folder, name)).ino)).toEqual(before);
  });

  it('says the same on several threads', () => {
    const notes = Object.fromEntries(
      Array.from({ length: 60 }, (_, at) => [`set/q${at}.md`, at % 3 === 0 ? RIGHT_NOTE : WRONG_NOTE]),
    );
    const [one, two] = ['1', '2'].map(jobs => {
      const folder = folderOf(notes);
      const run = leastwise(['check', '--fix', 'set', '--jobs', jobs], { cwd: folder });
      return { run, texts: Object.keys(notes).map(path => read(folder, path)) };
    });
    expect(two).toEqual(one);
    expect(new Set(one!.texts)).toEqual(new Set([RIGHT_NOTE]));
    expect(lastLine(one!.run.stdout)).toMatch(/; 40 fixes made in 40 notes$/);
  });

  it('tells a student no value', () => {
    const folder = folderOf({ 'leastwise.config.json': '{ "student": true }', 'q1.md': WRONG_NOTE });
    const run = leastwise(['check', '--fix', '.'], { cwd: folder });
    expect(run.status).toBe(1);
    expect(read(folder, 'q1.md')).toBe(WRONG_NOTE);
    expect(run.stdout).not.toContain('2.484');
    const shown = leastwise(['check', '--fix', '--dry-run', '.'], { cwd: folder });
    expect(shown.stdout).toBe('');
    expect(fixAllEdits(WRONG_NOTE, { ...DEFAULT_SETTINGS, student: true })).toEqual([]);
  });
});

describe('links', () => {
  const both = () => {
    const folder = folderOf({ 'set/deep/q1.md': WRONG_NOTE, 'else/q2.md': WRONG_NOTE });
    symlinkSync('deep/q1.md', join(folder, 'set/a.md'));
    symlinkSync('../else/q2.md', join(folder, 'set/b.md'));
    return folder;
  };

  it('within the folder are written through', () => {
    const folder = both();
    leastwise(['check', '--fix', 'set/a.md'], { cwd: folder });
    expect(read(folder, 'set/deep/q1.md')).toBe(RIGHT_NOTE);
    expect(readlinkSync(join(folder, 'set/a.md'))).toBe('deep/q1.md');
  });

  it.each([['set'], ['set/b.md'], ['set/*.md'], ['./set/../set']])(
    'that lead out of what was named are left alone and told: %s',
    path => {
      const folder = both();
      const run = leastwise(['check', '--fix', path], { cwd: folder });
      expect(run.status).toBe(1);
      expect(run.stderr).toMatch(
        /^leastwise: .*set\/b\.md leads out of what was named, to .*else\/q2\.md, so it is not mended: name that file to have it mended\n$/,
      );
      expect(run.stdout).toContain('1 error');
      expect(read(folder, 'else/q2.md')).toBe(WRONG_NOTE);
      expect(lstatSync(join(folder, 'set/b.md')).isSymbolicLink()).toBe(true);
    },
  );

  it('into another folder that was named lead out of nothing', () => {
    const folder = both();
    expect(leastwise(['check', '--fix', 'set', 'else'], { cwd: folder })).toMatchObject({
      status: 0,
      stderr: '',
    });
    expect(read(folder, 'else/q2.md')).toBe(RIGHT_NOTE);
  });

  it('of the other kind, a second name of the file, keep what stands outside as it was', () => {
    const folder = folderOf({ 'else/q.md': WRONG_NOTE, 'set/': '' });
    linkSync(join(folder, 'else/q.md'), join(folder, 'set/q.md'));
    expect(leastwise(['check', '--fix', 'set'], { cwd: folder }).status).toBe(0);
    expect([read(folder, 'set/q.md'), read(folder, 'else/q.md')]).toEqual([RIGHT_NOTE, WRONG_NOTE]);
  });

  it('may give one file many names on many threads', () => {
    const folder = folderOf({ 'set/q.md': WRONG_NOTE });
    for (let at = 0; at < 60; at++) symlinkSync('q.md', join(folder, `set/l${at}.md`));
    const run = leastwise(['check', '--fix', 'set', '--jobs', '4'], { cwd: folder });
    expect(run).toMatchObject({ status: 0, stderr: '' });
    expect(read(folder, 'set/q.md')).toBe(RIGHT_NOTE);
    expect(readdirSync(join(folder, 'set')).filter(name => !name.endsWith('.md'))).toEqual([]);
  });
});

describe('what cannot be written', () => {
  const others = { 'open/q1.md': WRONG_NOTE, 'open/q3.md': WRONG_NOTE };
  const openToAll = (folder: string, ...paths: readonly string[]) => {
    for (const path of paths) chmodSync(join(folder, path), path.endsWith('.md') ? 0o666 : 0o777);
  };

  it('is told for a note that may only be read, and the rest is done', () => {
    const folder = folderOf({ ...others, 'open/q2.md': WRONG_NOTE });
    openToAll(folder, 'open', 'open/q1.md', 'open/q3.md');
    chmodSync(join(folder, 'open/q2.md'), 0o444);
    const run = leastwise(['check', '--fix', 'open'], { cwd: folder, withoutRights: true });
    expect(run).toMatchObject({
      status: 2,
      stderr: 'leastwise: open/q2.md may not be written: the permission is missing\n',
    });
    expect(['q1', 'q2', 'q3'].map(name => read(folder, `open/${name}.md`))).toEqual([
      ...[RIGHT_NOTE, WRONG_NOTE, RIGHT_NOTE],
    ]);
    // What was not mended is still reported.
    expect(lastLine(run.stdout)).toMatch(/: 1 error; 2 fixes made in 2 notes$/);
  });

  it('is told for a folder that may only be read, and the rest is done', () => {
    const folder = folderOf({ ...others, 'shut/q2.md': WRONG_NOTE });
    openToAll(folder, 'open', 'open/q1.md', 'open/q3.md', 'shut/q2.md');
    chmodSync(join(folder, 'shut'), 0o555);
    const run = leastwise(['check', '--fix', 'open', 'shut'], { cwd: folder, withoutRights: true });
    expect(run).toMatchObject({
      status: 2,
      stderr: 'leastwise: shut/q2.md may not be written: the permission is missing\n',
    });
    expect(read(folder, 'open/q3.md')).toBe(RIGHT_NOTE);
    expect(read(folder, 'shut/q2.md')).toBe(WRONG_NOTE);
  });

  it('is told where there is no room, and nothing is left of the attempt', () => {
    const folder = folderOf({ 'q1.md': WRONG_NOTE, 'right.md': RIGHT_NOTE });
    const launcher = new URL('../../../server/bin/leastwise.js', import.meta.url).pathname;
    // As on a full disk, no file can grow.
    const command = 'ulimit -f 0 && exec "$0" "$1" check --fix .';
    const run = spawnSync('sh', ['-c', command, process.execPath, launcher], {
      cwd: folder,
      encoding: 'utf8',
    });
    expect(run.stderr).toBe('leastwise: q1.md could not be written: it is larger than a file may be here\n');
    expect(run.status).toBe(2);
    expect(lastLine(run.stdout)).toMatch(/^2 notes, .*: 1 error; nothing was mended$/);
    expect(read(folder, 'q1.md')).toBe(WRONG_NOTE);
    expect(readdirSync(folder)).toEqual(['q1.md', 'right.md']);
  });

  it('is told for links in a ring and into nowhere, and the rest is done', () => {
    const folder = folderOf({ 'q1.md': WRONG_NOTE });
    symlinkSync('ring.md', join(folder, 'ring.md'));
    symlinkSync('gone/away.md', join(folder, 'nowhere.md'));
    const run = leastwise(['check', '--fix', '.'], { cwd: folder });
    expect(run.status).toBe(2);
    expect(run.stderr.trimEnd().split('\n')).toEqual([
      'leastwise: there is no file or folder nowhere.md',
      'leastwise: ring.md is a link that leads back to itself',
    ]);
    expect(read(folder, 'q1.md')).toBe(RIGHT_NOTE);
  });

  it('is a note that somebody else has changed in the meantime', () => {
    const folder = folderOf({ 'q1.md': 'typed since' });
    const path = join(folder, 'q1.md');
    expect(writeNote(path, 'as it was', 'mended')).toMatch(/was changed by somebody else in the meantime/);
    expect(read(folder, 'q1.md')).toBe('typed since');
    // The same words from another hand are no quarrel.
    expect(writeNote(path, 'as it was', 'typed since')).toBeNull();
    expect(writeNote(join(folder, 'gone.md'), 'a', 'b')).toMatch(/could not be written: it is gone/);
    expect(readdirSync(folder)).toEqual(['q1.md']);
  });
});

describe('--dry-run', () => {
  it('shows by a diff what --fix writes, to the byte, and writes nothing', () => {
    const folder = careless();
    const wrong = join(folder, 'notes/10 wrong.md');
    writeFileSync(wrong, `\ufeff${WRONG_NOTE.trimEnd().replaceAll('\n', '\r\n')}`);
    const names = readdirSync(join(folder, 'notes'));
    const before = names.map(name => read(folder, `notes/${name}`));
    const shown = leastwise(['check', '--fix', '--dry-run', './notes'], { cwd: folder });
    expect(names.map(name => read(folder, `notes/${name}`))).toEqual(before);
    // As many findings as there are without it: nothing was written.
    const plain = leastwise(['check', 'notes'], { cwd: folder });
    expect(shown.status).toBe(1);
    expect(shown.stderr).toMatch(/^10 notes.*; \d+ fixes to make in 9 notes, nothing was written\n$/);
    expect(shown.stderr.startsWith(lastLine(plain.stdout)!)).toBe(true);

    const byDiff = careless();
    cpSync(wrong, join(byDiff, 'notes/10 wrong.md'));
    const patch = spawnSync('patch', ['-p0'], { cwd: byDiff, input: shown.stdout, encoding: 'utf8' });
    expect(patch).toMatchObject({ status: 0, stderr: '' });
    leastwise(['check', '--fix', 'notes'], { cwd: folder });
    for (const name of names) expect(read(byDiff, `notes/${name}`), name).toBe(read(folder, `notes/${name}`));
    expect(names.map(name => read(folder, `notes/${name}`))).not.toEqual(before);
  });

  it('names a note from where the command runs', () => {
    const folder = folderOf({ 'set/q1.md': WRONG_NOTE });
    const run = leastwise(['check', '--fix', '--dry-run', join(folder, 'set')], { cwd: folder });
    expect(run.stdout.split('\n').slice(0, 2)).toEqual(['--- set/q1.md', '+++ set/q1.md']);
    expect(run.stdout).toContain('\n-observed reading = 2.45 cm + 17 × 0.002 cm = 2.494 cm\n+observed');
  });
});

describe('a note on standard input', () => {
  it('goes to standard output, mended, and the report to standard error', () => {
    const run = leastwise(['check', '-', '--fix'], { input: `\ufeff${WRONG_NOTE}` });
    expect(run).toMatchObject({ status: 0, stdout: `\ufeff${RIGHT_NOTE}` });
    expect(lastLine(run.stderr)).toMatch(/nothing to correct; 1 fix made in 1 note$/);
    expect(leastwise(['check', '--fix'], { input: PLAIN_NOTE }).stdout).toBe(PLAIN_NOTE);
  });

  it('is shown as a diff', () => {
    const words = ['check', '-', '--fix', '--dry-run', '--stdin-filename', 'set/q1.md'];
    expect(leastwise(words, { input: WRONG_NOTE }).stdout).toMatch(
      /^--- set\/q1\.md\n\+\+\+ set\/q1\.md\n@@ /,
    );
  });
});

it.each([
  [['--dry-run'], '--dry-run shows what --fix would write: name both'],
  [
    ['--fix', '--dry-run', '--format', 'json'],
    'with --dry-run standard output holds the diff: write the report to a file, --report json=FILE',
  ],
  [
    ['--fix', '-', 'q1.md'],
    'the note on standard input goes to standard output when it is mended, so no others can be checked with it',
  ],
])('%j is refused with a sentence', (words, sentence) => {
  const folder = folderOf({ 'q1.md': WRONG_NOTE });
  expect(leastwise(['check', 'q1.md', ...words], { cwd: folder })).toEqual({
    status: 2,
    stdout: '',
    stderr: `leastwise: ${sentence}\n`,
  });
  expect(read(folder, 'q1.md')).toBe(WRONG_NOTE);
});
