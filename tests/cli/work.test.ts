import { chmodSync, readdirSync, readFileSync, statSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { checkNote } from '../../server/src/checks/check.ts';
import { folderOf, leastwise, type Run } from '../support/command.ts';
import { RIGHT_NOTE } from '../support/workshop-notes.ts';

const SPOKE = `\`\`\`measurement spoke
uses: axle-sleeve
main scale reading: 0.20 cm
coinciding division: 5
\`\`\`
`;
const TWO = `${RIGHT_NOTE}\n${SPOKE}`;
const BARE = RIGHT_NOTE.replace(/^(?:least count|zero|observed|corrected).*\n/gm, '');

function work(cwd: string, ...words: readonly string[]): Run {
  return leastwise(['work', ...words], { cwd });
}

/** Standard error as sentences, without the name of the command before each. */
function said(run: Run): readonly string[] {
  return run.stderr
    .split('\n')
    .filter(line => line !== '')
    .map(line => line.replace(/^leastwise: /, ''));
}

describe('a working is printed', () => {
  const notes = { 'a.md': TWO, 'one.md': RIGHT_NOTE };

  it('as text', () => {
    const run = work(folderOf(notes), 'a.md#axle-sleeve');
    expect(run).toMatchObject({ status: 0, stderr: '' });
    expect(run.stdout).toContain(
      '  corrected reading = observed reading - zero error = 2.484 cm - 0.006 cm = 2.478 cm\n',
    );
    expect(run.stdout).not.toContain('=====');
    expect(work(folderOf(notes), 'one.md').stdout).toBe(run.stdout);
  });

  it('as lines that a block can hold', () => {
    const run = work(folderOf(notes), 'one.md', '--as', 'lines');
    expect(run.status).toBe(0);
    const lines = run.stdout.trimEnd().split('\n');
    expect(lines).toContain('least count = S - V = 0.5 mm - 0.48 mm = 0.02 mm');
    expect(checkNote(BARE.replace(/```\s*$/, `${lines.join('\n')}\n\`\`\`\n`)).findings).toEqual([]);
  });

  it('as Markdown', () => {
    const run = work(folderOf(notes), 'one.md', '--as', 'markdown');
    expect(run.status).toBe(0);
    expect(run.stdout).toMatch(/\$/);
    expect(run.stdout).toContain('2.478');
    expect(run.stdout).not.toContain('<!--');
  });

  it('by the scales', () => {
    const run = work(folderOf(notes), 'one.md', '--way', 'scales');
    expect(run.status).toBe(0);
    expect(run.stdout).toMatch(/17 ?×? ?V/);
    expect(run.stdout).not.toBe(work(folderOf(notes), 'one.md').stdout);
  });

  it('of every block, each below its name', () => {
    const run = work(folderOf(notes), 'a.md');
    expect(run.status).toBe(0);
    expect(run.stdout).toMatch(/^axle-sleeve\n={11}\n\n/);
    expect(run.stdout).toMatch(/\n\nspoke\n={5}\n\n/);
    expect(work(folderOf(notes), 'a.md', '--as', 'lines').stdout).toMatch(
      /^# axle-sleeve\n[\s\S]*\n\n# spoke\n/,
    );
    expect(work(folderOf(notes), 'a.md', '--as', 'markdown').stdout).toMatch(/^## axle-sleeve\n\n/);
  });

  it('of a note on standard input', () => {
    const run = leastwise(['work', '-#axle-sleeve'], { input: TWO });
    expect(run).toEqual(work(folderOf(notes), 'a.md#axle-sleeve'));
    const gone = leastwise(['work', '-#hub', '--stdin-filename', 'q7.md'], { input: TWO });
    expect(said(gone)).toEqual(['q7.md has no block hub: its blocks are axle-sleeve and spoke']);
  });

  it('of a note whose own name holds a #', () => {
    const folder = folderOf({ 'a#spoke': RIGHT_NOTE, a: TWO, 'b#1.md': TWO });
    expect(work(folder, 'a#spoke').stdout).toContain('2.478 cm');
    expect(work(folder, 'b#1.md#spoke')).toMatchObject({ status: 0, stderr: '' });
  });
});

describe('what cannot be worked out is told', () => {
  const lacking = BARE.replace('closed: vernier zero right, division 3', 'corrected reading = ?');

  it.each<[string, string, number, RegExp]>([
    [
      'a block that is not there',
      'a.md#hub',
      2,
      /^a\.md has no block hub: its blocks are axle-sleeve and spoke$/,
    ],
    ['in a note of one name', 'one.md#hub', 2, /^one\.md has no block hub: its only name is axle-sleeve$/],
    ['in a note without names', 'nameless.md#hub', 2, /none of its blocks has a name$/],
    [
      'a note without blocks',
      'plain.md',
      1,
      /^plain\.md holds no measurement block, so there is nothing to work out$/,
    ],
    ['a block with nothing in it', 'empty.md', 1, /^empty leaves nothing to work out$/],
    ['a note that is not there', 'gone.md#hub', 2, /^there is no file or folder gone\.md$/],
    ['a folder', '.', 2, /^\. is a folder, not a note$/],
  ])('%s', (_, target, status, sentence) => {
    const folder = folderOf({
      'a.md': TWO,
      'one.md': RIGHT_NOTE,
      'nameless.md': '```measurement\npitch: 1 mm\n```\n',
      'plain.md': '# Tools\n',
      'empty.md': '```measurement empty\n```\n',
    });
    const run = work(folder, target);
    expect(run).toMatchObject({ status, stdout: '' });
    expect(said(run)).toEqual([expect.stringMatching(sentence)]);
  });

  it('with what to record for it, beside all that can be worked out', () => {
    const run = work(folderOf({ 'a.md': lacking }), 'a.md');
    expect(run.status).toBe(1);
    expect(run.stdout).toContain('2.484 cm');
    expect(run.stdout).not.toContain('2.478 cm');
    expect(said(run).join('\n')).toMatch(/^axle-sleeve: .*closed: zeros coincide/);
  });

  it('options that do not go together', () => {
    const folder = folderOf({ 'a.md': TWO });
    for (const words of [
      ['--insert', '--refresh'],
      ['--as', 'text', '--insert'],
      ['--as', 'lines', '--refresh'],
      ['--as', 'html'],
      ['--way', 'guess'],
    ]) {
      const run = work(folder, 'a.md', ...words);
      expect(run).toMatchObject({ status: 2, stdout: '' });
      expect(said(run)).toHaveLength(1);
    }
    expect(readFileSync(join(folder, 'a.md'), 'utf8')).toBe(TWO);
  });

  it('without anything that could trick a terminal', () => {
    const run = work(folderOf({ 'a.md': RIGHT_NOTE }), 'a.md#\u202ehub');
    expect(run.stderr).toContain('no block <U+202E>hub');
  });
});

describe('a working is written into the note', () => {
  it('below every block, once', () => {
    const folder = folderOf({ 'a.md': TWO });
    const read = () => readFileSync(join(folder, 'a.md'), 'utf8');
    const run = work(folder, 'a.md', '--insert');
    expect(run).toEqual({
      status: 0,
      stderr: '',
      stdout: 'axle-sleeve: working inserted\nspoke: working inserted\n',
    });
    const once = read();
    expect(once.match(/<!-- working: (?:axle-sleeve|spoke) [0-9a-f]{6} -->/g)).toHaveLength(2);
    expect(checkNote(once).findings).toEqual([]);
    expect(work(folder, 'a.md', '--insert').stdout).toBe(
      'axle-sleeve: its working still fits and is left as it stands\nspoke: its working still fits and is left as it stands\n',
    );
    expect(work(folder, 'a.md', '--refresh').stdout).toBe('no working is stale\n');
    expect(read()).toBe(once);
    expect(readdirSync(folder)).toEqual(['a.md']);
  });

  it('below one block only', () => {
    const folder = folderOf({ 'a.md': TWO });
    expect(work(folder, 'a.md#spoke', '--insert').stdout).toBe('spoke: working inserted\n');
    expect(readFileSync(join(folder, 'a.md'), 'utf8').startsWith(TWO.trimEnd())).toBe(true);
  });

  it('anew where it is stale, and only there', () => {
    const folder = folderOf({ 'a.md': TWO });
    const path = join(folder, 'a.md');
    work(folder, 'a.md', '--insert');
    const text = readFileSync(path, 'utf8').replace('coinciding division: 5', 'coinciding division: 6');
    writeFileSync(path, `${text}\n<!-- working: hub 3f2a9c -->\n<!-- end working -->\n`);
    const run = work(folder, 'a.md', '--refresh');
    expect(run.status).toBe(1);
    expect(run.stdout).toMatch(
      /^spoke: its working was stale and is written anew\nline \d+: the block of this working is gone, so it is left as it stands\n$/,
    );
    expect(checkNote(readFileSync(path, 'utf8')).findings.map(({ rule }) => rule)).toEqual(['stale-working']);
  });

  it('as lines of the block', () => {
    const folder = folderOf({ 'a.md': BARE });
    expect(work(folder, 'a.md', '--as', 'lines', '--insert').stdout).toBe('axle-sleeve: lines inserted\n');
    const once = readFileSync(join(folder, 'a.md'), 'utf8');
    expect(once).toContain(
      'corrected reading = observed reading - zero error = 2.484 cm - 0.006 cm = 2.478 cm\n```\n',
    );
    expect(checkNote(once).findings).toEqual([]);
    expect(work(folder, 'a.md', '--as', 'lines', '--insert').stdout).toMatch(
      /^axle-sleeve: it claims already all/,
    );
    expect(readFileSync(join(folder, 'a.md'), 'utf8')).toBe(once);
  });

  it('with the byte-order mark, the line breaks and the rights that it had, behind a link', () => {
    const text = `\uFEFF${RIGHT_NOTE.replaceAll('\n', '\r\n')}`;
    const folder = folderOf({ 'real/a.md': text });
    chmodSync(join(folder, 'real/a.md'), 0o640);
    symlinkSync('real/a.md', join(folder, 'link.md'));
    expect(work(folder, 'link.md', '--insert').status).toBe(0);
    const now = readFileSync(join(folder, 'real/a.md'), 'utf8');
    expect(now.startsWith(text.trimEnd())).toBe(true);
    expect(now.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    expect(statSync(join(folder, 'real/a.md')).mode & 0o777).toBe(0o640);
    expect(readFileSync(join(folder, 'link.md'), 'utf8')).toBe(now);
    expect(readdirSync(join(folder, 'real'))).toEqual(['a.md']);
  });

  it('to standard output where the note comes from standard input', () => {
    const run = leastwise(['work', '-', '--insert'], { input: RIGHT_NOTE });
    expect(run).toMatchObject({ status: 0, stderr: 'leastwise: axle-sleeve: working inserted\n' });
    expect(run.stdout.startsWith(RIGHT_NOTE.trimEnd())).toBe(true);
    expect(checkNote(run.stdout).findings).toEqual([]);
  });

  it('never without the right to write there', () => {
    const folder = folderOf({ 'set/a.md': RIGHT_NOTE });
    chmodSync(join(folder, 'set'), 0o555);
    const run = leastwise(['work', 'set/a.md', '--insert'], { cwd: folder, withoutRights: true });
    chmodSync(join(folder, 'set'), 0o755);
    expect(run).toEqual({
      status: 2,
      stdout: '',
      stderr: 'leastwise: set/a.md may not be written: the permission is missing\n',
    });
    expect(readFileSync(join(folder, 'set/a.md'), 'utf8')).toBe(RIGHT_NOTE);
  });
});
