import {
  existsSync,
  readdirSync,
  readFileSync,
  statSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { checkNote } from '../../server/src/checks/check.ts';
import { cacheEntry, readCacheEntry } from '../../server/src/cli/cache/cache-entry.ts';
import { entriesOf } from '../support/cache.ts';
import { folderOf, leastwise, type Run } from '../support/command.ts';
import { RIGHT_NOTE, WARNING_NOTE, WRONG_NOTE } from '../support/workshop-notes.ts';

const bank = () =>
  folderOf({
    'notes/a.md': RIGHT_NOTE,
    'notes/b.md': WRONG_NOTE,
    'notes/c.md': WARNING_NOTE,
    'notes/d.md': '# Oil\n',
  });

function check(cwd: string, ...words: readonly string[]): Run {
  return leastwise(['check', 'notes', '--format', 'json', ...words], { cwd });
}

describe('a cache', () => {
  it('changes nothing of what a run says, when it is filled and when it is used', () => {
    const cwd = bank();
    for (const format of ['json', 'pretty']) {
      const plain = leastwise(['check', 'notes', '--format', format], { cwd });
      expect(plain.status).toBe(1);
      for (const _ of ['filled', 'used'])
        expect(leastwise(['check', 'notes', '--format', format, '--cache'], { cwd })).toEqual(plain);
    }
  });

  it('keeps quantities only for a report of all of them, which has them also where another report was first', () => {
    const cwd = bank();
    const cache = join(cwd, '.leastwise-cache');
    const holdingQuantities = () =>
      entriesOf(cache).filter(path => readFileSync(path, 'utf8').includes('"shown"'));
    leastwise(['check', 'notes', '--cache'], { cwd });
    expect(entriesOf(cache)).toHaveLength(3);
    expect(holdingQuantities()).toEqual([]);
    const plain = check(cwd);
    expect(check(cwd, '--cache')).toEqual(plain);
    expect(holdingQuantities()).toHaveLength(3);
    expect(check(cwd, '--cache')).toEqual(plain);
  });

  it('keeps a file for each different note with blocks, beside a mark, out of git', () => {
    const cwd = bank();
    writeFileSync(join(cwd, 'notes/e.md'), RIGHT_NOTE);
    check(cwd, '--cache');
    expect(entriesOf(join(cwd, '.leastwise-cache'))).toHaveLength(3);
    expect(readFileSync(join(cwd, '.leastwise-cache/.gitignore'), 'utf8')).toBe('*\n');
    // The Cache Directory Tagging Specification asks for this first line.
    expect(readFileSync(join(cwd, '.leastwise-cache/CACHEDIR.TAG'), 'utf8')).toMatch(
      /^Signature: 8a477f597d28d172789f06886806bc55\n/,
    );
  });

  it('is used: an answer that somebody puts in with its digest is the answer', () => {
    const cwd = folderOf({ 'notes/b.md': WRONG_NOTE });
    check(cwd, '--cache');
    const [path = ''] = entriesOf(join(cwd, '.leastwise-cache'));
    const key = path.split('/').slice(-2).join('');
    expect(readCacheEntry(key, readFileSync(path))).toEqual(
      JSON.parse(JSON.stringify(checkNote(WRONG_NOTE))),
    );
    writeFileSync(path, cacheEntry(key, checkNote(RIGHT_NOTE)));
    expect(check(cwd, '--cache')).toMatchObject({ status: 0, stderr: '' });
  });

  it('answers for other words, other settings and the notes of a student anew', () => {
    const cwd = bank();
    check(cwd, '--cache');
    writeFileSync(join(cwd, 'notes/a.md'), WRONG_NOTE.replace('2.494', '2.594'));
    for (const config of [
      '{}',
      '{"rules":{"wrong-value":"warning"}}',
      '{"student":true}',
      '{"errorRule":"half least count"}',
    ]) {
      writeFileSync(join(cwd, 'leastwise.config.json'), config);
      const plain = check(cwd);
      expect(check(cwd, '--cache')).toEqual(plain);
      expect(check(cwd, '--cache')).toEqual(plain);
    }
  });

  it('can be a folder with any name, and is never taken for notes', () => {
    const cwd = bank();
    const plain = check(cwd);
    expect(check(cwd, '--cache', 'notes/kept')).toEqual(plain);
    expect(check(cwd, '--cache', 'notes/kept')).toEqual(plain);
    expect(entriesOf(join(cwd, 'notes/kept'))).toHaveLength(3);
    expect(existsSync(join(cwd, '.leastwise-cache'))).toBe(false);
  });

  it('serves standard input too', () => {
    const cwd = folderOf({});
    const words = ['check', '-', '--cache', '--format', 'json'];
    const first = leastwise(words, { cwd, input: WRONG_NOTE });
    expect(first.status).toBe(1);
    expect(leastwise(words, { cwd, input: WRONG_NOTE })).toEqual(first);
    expect(entriesOf(join(cwd, '.leastwise-cache'))).toHaveLength(1);
  });
});

describe('a cache that is not used for long', () => {
  const DAYS = 24 * 60 * 60;
  const daysAgo = (days: number) => Date.now() / 1000 - days * DAYS;

  it('drops what was not used for thirty days, looks once a day, and marks what is used', () => {
    const cwd = bank();
    const cache = join(cwd, '.leastwise-cache');
    check(cwd, '--cache');
    const [first = '', second = '', third = ''] = entriesOf(cache);
    const gone = first.replace(/[^/]{62}$/, 'f'.repeat(62));
    writeFileSync(gone, 'of another build');
    utimesSync(gone, daysAgo(31), daysAgo(31));
    utimesSync(first, daysAgo(31), daysAgo(31));
    utimesSync(second, daysAgo(29), daysAgo(29));
    // Today it was looked at already.
    check(cwd, '--cache');
    expect(existsSync(gone)).toBe(true);
    expect(statSync(first).mtimeMs / 1000).toBeGreaterThan(daysAgo(1));
    expect(statSync(second).mtimeMs / 1000).toBeGreaterThan(daysAgo(1));
    utimesSync(join(cache, 'swept'), daysAgo(2), daysAgo(2));
    check(cwd, '--cache');
    expect(entriesOf(cache)).toEqual([first, second, third]);
  });

  it('drops what killed runs left half written, and nothing that has another name', () => {
    const cwd = bank();
    const cache = join(cwd, '.leastwise-cache');
    check(cwd, '--cache');
    const shelf = entriesOf(cache)[0]?.replace(/\/[^/]+$/, '') ?? '';
    const outside = folderOf({ [`${'a'.repeat(62)}`]: 'somebody else’s' });
    symlinkSync(outside, join(cache, readdirSync(cache).includes('0a') ? 'a0' : '0a'));
    const names = {
      left: `${shelf}/.leastwise-bench-123-0123456789ab.part`,
      fresh: `${shelf}/.leastwise-bench-124-0123456789ab.part`,
      foreign: `${shelf}/thesis.part`,
      atTop: `${cache}/list.txt`,
      linked: `${outside}/${'a'.repeat(62)}`,
    };
    for (const path of Object.values(names)) writeFileSync(path, 'words');
    for (const path of [names.left, names.foreign, names.atTop, names.linked])
      utimesSync(path, daysAgo(90), daysAgo(90));
    utimesSync(join(cache, 'swept'), daysAgo(2), daysAgo(2));
    expect(check(cwd, '--cache')).toMatchObject({ stderr: '' });
    expect(Object.values(names).filter(path => !existsSync(path))).toEqual([names.left]);
  });
});

describe('a folder that is no cache', () => {
  it('is refused where it was named, and nothing in it changes', () => {
    const cwd = bank();
    const before = readdirSync(join(cwd, 'notes'));
    const run = leastwise(['check', 'notes/a.md', '--cache', 'notes'], { cwd });
    expect(run).toEqual({
      status: 2,
      stdout: '',
      stderr:
        'leastwise: notes holds other things than a cache, so nothing is kept in it: name a new or an empty folder after `--cache`, and the notes before it\n',
    });
    expect(readdirSync(join(cwd, 'notes'))).toEqual(before);
    const file = leastwise(['check', 'notes', '--cache', 'notes/a.md'], { cwd });
    expect(file).toMatchObject({ status: 2, stderr: expect.stringContaining('notes/a.md is a file, so') });
  });

  it('is refused with the mark of another program', () => {
    const cwd = folderOf({
      'kept/CACHEDIR.TAG': 'Signature: 8a477f597d28d172789f06886806bc55\n',
      'a.md': RIGHT_NOTE,
    });
    const run = leastwise(['check', 'a.md', '--cache', 'kept'], { cwd });
    expect(run).toMatchObject({
      status: 2,
      stderr: expect.stringContaining('kept is the cache of another program'),
    });
  });

  it('is passed over where nobody named it', () => {
    const cwd = folderOf({ '.leastwise-cache/thesis.txt': 'words', 'a.md': WRONG_NOTE });
    const run = leastwise(['check', 'a.md', '--cache'], { cwd });
    expect(run).toMatchObject({
      status: 1,
      stderr: expect.stringContaining('holds other things than a cache'),
    });
    expect(readdirSync(join(cwd, '.leastwise-cache'))).toEqual(['thesis.txt']);
  });

  it('cannot take the place of the notes unseen', () => {
    const cwd = bank();
    for (const typed of ['notes', 'notes/*.md', 'elsewhere']) {
      const run = leastwise(['check', '--cache', typed], { cwd });
      expect(run).toMatchObject({
        status: 2,
        stdout: '',
        stderr: expect.stringMatching(/^leastwise: nothing to check: .*\n$/),
      });
    }
    expect(readdirSync(cwd)).toEqual(['notes']);
  });
});
