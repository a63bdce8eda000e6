import { execFileSync } from 'node:child_process';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ignoreFile } from '../../server/src/config/ignore-file.ts';
import { folderOf, leastwise } from '../support/command.ts';
import { drawSeed } from '../support/seed.ts';
import { RIGHT_NOTE, WRONG_NOTE } from '../support/workshop-notes.ts';

drawSeed('ignore-file');

const PATHS = [
  'q1.md',
  'drafts/q2.md',
  'set-1/drafts/q3.md',
  'set-1/q4.md',
  'set-1/keep.md',
  'archive/2019/q5.md',
  'draft.md',
];

describe('an ignore file', () => {
  it.each([
    ['drafts/\n'],
    ['/drafts\n'],
    ['*.md\n!keep.md\n'],
    ['set-?/q*.md\r\n# the rest is right\r\n\r\narchive/**\r\n'],
    ['**/drafts/*\n!**/drafts/q3.md'],
    ['set-1\n!set-1/keep.md\n'],
    ['\\#q1.md\nq1.md   \ndraft'],
    ['[dq]*\n'],
    ['archive/*/q5.md\n'],
    ['Draft.md\nSET-1/\nQ[1].md\n'],
  ])('%j leaves out what version control leaves out', text => {
    const isIgnored = ignoreFile(text);
    // The other opinion is that of the program whose patterns they are.
    const folder = folderOf({ '.gitignore': text, ...Object.fromEntries(PATHS.map(path => [path, ''])) });
    const git = (...words: readonly string[]) =>
      execFileSync('git', words, { cwd: folder, encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] });
    git('init', '-q');
    // Where capital letters count is settled by the system for version control.
    git('config', 'core.ignorecase', 'false');
    const kept = git('ls-files', '--others', '--exclude-standard', '-z').split('\0');
    expect(PATHS.filter(path => !isIgnored(path))).toEqual(PATHS.filter(path => kept.includes(path)));
  });

  it('leaves out nothing above its folder, and takes any text', () => {
    expect(ignoreFile('*')('../q1.md')).toBe(false);
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), fc.constantFrom(...PATHS), (text, path) => {
        expect(typeof ignoreFile(text)(path)).toBe('boolean');
      }),
    );
  });

  it('says the same however often it is asked', () => {
    const isIgnored = ignoreFile('drafts/\n!q9.md\n');
    const numbers = Array.from({ length: 25_000 }, (_, at) => at);
    expect(numbers.filter(at => !isIgnored(`drafts/q${at}.md`))).toEqual([]);
    expect(numbers.filter(at => isIgnored(`set/q${at}.md`))).toEqual([]);
  });
});

describe('.leastwiseignore', () => {
  const notesOf = (cwd: string, ...words: readonly string[]): readonly string[] =>
    JSON.parse(leastwise(['check', '--format', 'json', ...words], { cwd }).stdout).notes.map(
      ({ path }: { path: string }) => path,
    );
  const bank = (more: Readonly<Record<string, string>> = {}) =>
    folderOf({
      '.leastwiseignore': 'drafts/\n*.tmp.md\n',
      'q1.md': RIGHT_NOTE,
      'q1.tmp.md': WRONG_NOTE,
      'drafts/q2.md': WRONG_NOTE,
      'set/q3.md': RIGHT_NOTE,
      ...more,
    });

  it('leaves notes out in its folder and below', () => {
    expect(notesOf(bank(), '.')).toEqual(['q1.md', 'set/q3.md']);
    expect(notesOf(bank(), '**/*.md')).toEqual(['q1.md', 'set/q3.md']);
  });

  it('gives way to one that is nearer', () => {
    expect(notesOf(bank({ 'drafts/.leastwiseignore': '' }), '.')).toEqual([
      'drafts/q2.md',
      'q1.md',
      'set/q3.md',
    ]);
  });

  it('goes together with the configuration, and --no-config looks at neither', () => {
    const folder = bank({ 'leastwise.config.json': '{ "ignore": ["set/**"] }' });
    expect(notesOf(folder, '.')).toEqual(['q1.md']);
    expect(notesOf(folder, '.', '--no-config')).toHaveLength(4);
  });

  it('is told to whoever names the note', () => {
    expect(leastwise(['check', 'drafts/q2.md'], { cwd: bank() })).toEqual({
      status: 0,
      stdout: '',
      stderr: 'leastwise: drafts/q2.md is left out: .leastwiseignore says so\n',
    });
  });

  it('that cannot be read is told once, and no note passes for a right one', () => {
    const folder = folderOf({
      '.leastwiseignore': Buffer.from([0xff, 0xfe, 0x61, 0x00]),
      'q1.md': WRONG_NOTE,
      'q2.md': WRONG_NOTE,
    });
    const run = leastwise(['check', '.'], { cwd: folder });
    expect(run.status).toBe(2);
    expect(run.stderr).toMatch(/^leastwise: \.leastwiseignore is written in UTF-16[^\n]*\n$/);
  });

  it('is not what version control leaves out: a note is checked all the same', () => {
    const folder = folderOf({ '.gitignore': '*.md\n', 'q1.md': WRONG_NOTE });
    expect(leastwise(['check', '.'], { cwd: folder }).status).toBe(1);
  });
});
