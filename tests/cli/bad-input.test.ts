import { chmodSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { folderOf, leastwise } from '../support/command.ts';
import { RIGHT_NOTE, WRONG_NOTE } from '../support/workshop-notes.ts';

/** What is said about an argument that gives no note: one sentence on standard error, and status 2. */
function complaint(cwd: string, ...paths: readonly string[]): string {
  const run = leastwise(['check', ...paths], { cwd });
  expect(run.status).toBe(2);
  expect(run.stdout).toBe('');
  const lines = run.stderr.trimEnd().split('\n');
  expect(lines).toHaveLength(1);
  expect(lines[0]).toMatch(/^leastwise: /);
  return (lines[0] ?? '').slice('leastwise: '.length);
}

describe('what cannot be checked is told in one sentence', () => {
  it('a missing file', () => {
    expect(complaint(folderOf({}), 'spoke.md')).toBe('there is no file or folder spoke.md');
  });

  it('an empty name', () => {
    const folder = folderOf({ 'a.md': RIGHT_NOTE });
    expect(complaint(folder, '')).toBe('an empty word names no note, no folder and no pattern');
    for (const option of ['cache', 'baseline', 'config'])
      expect(complaint(folder, 'a.md', `--${option}=`)).toBe(`--${option} is followed by an empty name`);
  });

  it('a path through a file', () => {
    expect(complaint(folderOf({ 'a.md': RIGHT_NOTE }), 'a.md/b.md')).toBe(
      'there is no file or folder a.md/b.md',
    );
  });

  it('a folder without notes', () => {
    expect(complaint(folderOf({ 'set/a.txt': RIGHT_NOTE }), 'set')).toMatch(/^set holds no notes/);
  });

  it('a folder whose only notes are left out', () => {
    const folder = folderOf({ 'set/node_modules/a.md': RIGHT_NOTE, 'set/.drafts/b.md': RIGHT_NOTE });
    expect(complaint(folder, 'set')).toMatch(/^set holds no notes/);
  });

  it('a pattern that matches nothing', () => {
    expect(complaint(folderOf({ 'a.md': RIGHT_NOTE }), 'b*.md')).toBe('no note matches b*.md');
    expect(complaint(folderOf({ 'a.md': RIGHT_NOTE }), 'shed/*.md')).toBe('there is no file or folder shed');
  });

  it.each([
    ['a[.md', ']'],
    ['set (1.md', ')'],
    ['{a,b.md', '}'],
  ])('a broken pattern: %s', (pattern, sign) => {
    expect(complaint(folderOf({}), pattern)).toBe(
      `there is no file ${pattern}, and as a pattern it cannot be read: a bracket is opened and no ${sign} closes it`,
    );
  });

  it.each([
    ['UTF-16 (little-endian)', Buffer.from(`\ufeff${RIGHT_NOTE}`, 'utf16le')],
    ['UTF-16 (big-endian)', Buffer.from(`\ufeff${RIGHT_NOTE}`, 'utf16le').swap16()],
    ['UTF-16 (without a byte-order mark)', Buffer.from(RIGHT_NOTE, 'utf16le')],
    ['UTF-32 (little-endian)', Buffer.from([0xff, 0xfe, 0, 0, 0x23, 0, 0, 0])],
  ])('a note in %s', (encoding, bytes) => {
    expect(complaint(folderOf({ 'a.md': bytes }), 'a.md')).toBe(
      `a.md is written in ${encoding}, which is not read here: save it as UTF-8`,
    );
  });

  it('a note in an old one-byte encoding, with the line that shows it', () => {
    const bytes = Buffer.from(RIGHT_NOTE, 'latin1');
    expect(complaint(folderOf({ 'a.md': bytes }), 'a.md')).toMatch(
      /^a\.md is not written in UTF-8 \(line 10 is the first that shows it\)/,
    );
  });

  it('an option or a command that does not exist', () => {
    expect(complaint(folderOf({}), '--colour')).toBe("unknown option '--colour'");
    expect(leastwise(['chek', 'a.md'])).toEqual({
      status: 2,
      stdout: '',
      stderr: "leastwise: unknown command 'chek' (Did you mean check?)\n",
    });
    expect(leastwise(['check', '--format', 'xml', 'a.md'])).toMatchObject({
      status: 2,
      stderr: expect.stringMatching(
        /^leastwise: .*Allowed choices are pretty, json, sarif, junit, github\n$/,
      ),
    });
  });

  it('no command at all', () => {
    expect(leastwise([])).toMatchObject({ status: 2, stdout: '', stderr: expect.stringContaining('Usage:') });
  });
});

describe('a permission that is missing', () => {
  it('is told for a file', () => {
    const cwd = folderOf({ 'a.md': RIGHT_NOTE });
    chmodSync(join(cwd, 'a.md'), 0);
    expect(leastwise(['check', 'a.md'], { cwd, withoutRights: true })).toEqual({
      status: 2,
      stdout: '',
      stderr: 'leastwise: a.md may not be read: the permission is missing\n',
    });
  });

  it.each([['set'], ['set/**/*.md'], ['s*']])(
    'is told for a folder inside %s, and the rest is checked',
    path => {
      const cwd = folderOf({ 'set/a.md': RIGHT_NOTE, 'set/locked/b.md': WRONG_NOTE });
      chmodSync(join(cwd, 'set/locked'), 0);
      const run = leastwise(['check', path], { cwd, withoutRights: true });
      chmodSync(join(cwd, 'set/locked'), 0o755);
      expect(run.status).toBe(2);
      expect(run.stderr).toBe('leastwise: set/locked may not be read: the permission is missing\n');
      expect(run.stdout).toMatch(/^1 note, 1 block/);
    },
  );
});

it('what can be checked is checked all the same', () => {
  const cwd = folderOf({ 'a.md': WRONG_NOTE, 'b.md': Buffer.from([0xff, 0xfe]) });
  const run = leastwise(['check', 'gone.md', 'b.md', 'a.md'], { cwd });
  expect(run.status).toBe(2);
  expect(run.stderr.trimEnd().split('\n')).toHaveLength(2);
  expect(run.stdout).toContain('a.md, line 15');
});

it('names and complaints reach the terminal without control characters', () => {
  const cwd = folderOf({ 'a\x1b[31m\u202e.md': WRONG_NOTE });
  const gone = leastwise(['check', 'b\x1b]0;x\x07\x9b.md'], { cwd });
  expect(gone.stderr).toBe(
    'leastwise: there is no file b<U+001B>]0;x<U+0007><U+009B>.md, and as a pattern it cannot be read: no [ opens what is closed\n',
  );
  const found = leastwise(['check', '.'], { cwd });
  expect(found.stdout).toContain('a<U+001B>[31m<U+202E>.md, line 15');
});
