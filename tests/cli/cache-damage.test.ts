import { execFileSync } from 'node:child_process';
import {
  chmodSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  symlinkSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkNote } from '../../server/src/checks/check.ts';
import { cacheEntry, readCacheEntry } from '../../server/src/cli/cache/cache-entry.ts';
import { entriesOf } from '../support/cache.ts';
import { folderOf, leastwise, type Run } from '../support/command.ts';
import { drawSeed } from '../support/seed.ts';
import { RIGHT_NOTE, WARNING_NOTE, WRONG_NOTE } from '../support/workshop-notes.ts';

drawSeed('cache-damage');

const bank = () =>
  folderOf({ 'notes/a.md': RIGHT_NOTE, 'notes/b.md': WRONG_NOTE, 'notes/c.md': WARNING_NOTE });

function check(cwd: string, ...words: readonly string[]): Run {
  return leastwise(['check', 'notes', '--format', 'json', ...words], { cwd });
}

describe('a file of a cache', () => {
  const key = 'ab'.repeat(32);
  const whole = cacheEntry(key, checkNote(WRONG_NOTE));

  it('is read as it was written', () => {
    expect(readCacheEntry(key, whole)).toEqual(JSON.parse(JSON.stringify(checkNote(WRONG_NOTE))));
  });

  it('is nothing below another key, cut off, or with any byte changed', () => {
    expect(readCacheEntry(key.replace('a', 'c'), whole)).toBeNull();
    fc.assert(
      fc.property(fc.nat(whole.length - 1), fc.integer({ min: 1, max: 255 }), (at, change) => {
        const other = Buffer.from(whole);
        other[at] = (other[at] ?? 0) ^ change;
        expect(readCacheEntry(key, other)).toBeNull();
        expect(readCacheEntry(key, whole.subarray(0, at))).toBeNull();
      }),
    );
    expect(readCacheEntry(key, Buffer.concat([whole, Buffer.from(' ')]))).toBeNull();
  });
});

describe('a damaged cache', () => {
  const DAMAGES: Readonly<Record<string, (path: string) => void>> = {
    empty: path => truncateSync(path, 0),
    short: path => truncateSync(path, 40),
    'full of zeros': path => writeFileSync(path, Buffer.alloc(statSync(path).size)),
    'of another note': path => writeFileSync(path, readFileSync(path, 'utf8').replace('0.02 mm', '0.03 mm')),
    'a pipe that nobody writes to': path => {
      rmSync(path);
      execFileSync('mkfifo', [path]);
    },
  };

  it.each(Object.keys(DAMAGES))('with files that are %s is told once and made anew', kind => {
    const cwd = bank();
    const plain = check(cwd, '--cache');
    expect(plain.stderr).toBe('');
    for (const path of entriesOf(join(cwd, '.leastwise-cache'))) DAMAGES[kind]?.(path);
    expect(check(cwd, '--cache')).toEqual({
      ...plain,
      stderr: 'leastwise: a part of the cache in .leastwise-cache was damaged: its notes are checked anew\n',
    });
    expect(check(cwd, '--cache')).toEqual(plain);
  });

  it('with folders where its files belong loses nothing of them, and the notes are checked', () => {
    const cwd = bank();
    const plain = check(cwd, '--cache');
    const [path = ''] = entriesOf(join(cwd, '.leastwise-cache'));
    rmSync(path);
    mkdirSync(path);
    writeFileSync(join(path, 'thesis.txt'), 'words');
    for (const _ of ['once', 'again'])
      expect(check(cwd, '--cache')).toEqual({
        ...plain,
        stderr: expect.stringMatching(/^leastwise: a part of the cache .*\n$/),
      });
    expect(readFileSync(join(path, 'thesis.txt'), 'utf8')).toBe('words');
  });

  it('with a link for a folder is not written through', () => {
    const cwd = bank();
    const plain = check(cwd, '--cache');
    const outside = folderOf({});
    for (const path of entriesOf(join(cwd, '.leastwise-cache'))) {
      rmSync(dirname(path), { recursive: true, force: true });
      symlinkSync(outside, dirname(path));
    }
    expect(check(cwd, '--cache')).toEqual(plain);
    expect(readdirSync(outside)).toEqual([]);
  });

  it('without its mark is nobody’s, so it is left alone', () => {
    const cwd = bank();
    const plain = check(cwd, '--cache');
    const mark = join(cwd, '.leastwise-cache/CACHEDIR.TAG');
    truncateSync(mark, 3);
    const run = check(cwd, '--cache');
    expect(run).toEqual({
      ...plain,
      stderr: expect.stringMatching(/^leastwise: \.leastwise-cache holds other things .*\n$/),
    });
    expect(statSync(mark).size).toBe(3);
    renameSync(join(cwd, '.leastwise-cache'), join(cwd, 'old'));
    expect(check(cwd, '--cache')).toEqual(plain);
  });
});

describe('a cache that cannot be written', () => {
  it('is told, and the check goes on', () => {
    const cwd = bank();
    const plain = check(cwd);
    chmodSync(cwd, 0o555);
    const told = {
      ...plain,
      stderr:
        'leastwise: .leastwise-cache may not be written: the permission is missing, so nothing is kept for the next run\n',
    };
    expect(
      leastwise(['check', 'notes', '--format', 'json', '--cache'], { cwd, withoutRights: true }),
    ).toEqual(told);
  });

  it('serves what it holds, and says once that it keeps nothing more', () => {
    const cwd = bank();
    check(cwd, '--cache');
    for (const name of ['d', 'e', 'f', 'g'])
      writeFileSync(join(cwd, `notes/${name}.md`), RIGHT_NOTE.replace('axle-sleeve', `sleeve-${name}`));
    const cache = join(cwd, '.leastwise-cache');
    for (const folder of [cache, ...entriesOf(cache).map(path => dirname(path))]) chmodSync(folder, 0o555);
    const plain = check(cwd);
    expect(
      leastwise(['check', 'notes', '--format', 'json', '--cache'], { cwd, withoutRights: true }),
    ).toEqual({
      ...plain,
      stderr:
        'leastwise: .leastwise-cache may not be written: the permission is missing, so what this run finds is not kept for the next\n',
    });
    expect(entriesOf(cache)).toHaveLength(3);
  });
});
