import { readdirSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { folderOf, leastwise, type Run } from '../../support/command.ts';
import { RIGHT_NOTE, WAIVING_NOTE, WARNING_NOTE, WRONG_NOTE } from '../../support/workshop-notes.ts';

const FILE = 'old.json';
const read = (folder: string, path: string): string => readFileSync(join(folder, path), 'utf8');
const put = (folder: string, path: string, text: string) => writeFileSync(join(folder, path), text);
const check = (cwd: string, ...words: readonly string[]): Run =>
  leastwise(['check', '--baseline', FILE, ...words], { cwd });
const summaryOf = (run: Run) => JSON.parse(run.stdout).summary;
const recordedIn = (folder: string): readonly { note: string; rule: string; count: number }[] =>
  JSON.parse(read(folder, FILE)).findings;

const bank = () => {
  const folder = folderOf({
    'set-1/q1.md': WRONG_NOTE,
    'set-1/q2.md': WARNING_NOTE,
    'set-2/q3.md': WRONG_NOTE,
    'set-2/waived.md': WAIVING_NOTE,
  });
  return folder;
};

describe('--record-baseline', () => {
  it('writes what there is, a finding a line, and then nothing of it counts', () => {
    const folder = bank();
    const first = check(folder, 'set-1', 'set-2', '--record-baseline');
    expect(first).toMatchObject({
      status: 0,
      stderr: 'leastwise: old.json holds 3 findings now, which will not count\n',
    });
    expect(first.stdout).toMatch(/^4 notes, .*: nothing to correct \(1 waived, 3 old\)\n$/);
    expect(read(folder, FILE)).toBe(`{
  "format": "leastwise-baseline",
  "version": 1,
  "findings": [
    {"note":"set-1/q1.md","rule":"wrong-value","block":"axle-sleeve","term":"observed reading","row":null,"stated":"2.494 cm","count":1},
    {"note":"set-1/q2.md","rule":"taken-as-given","block":"bearing-ball","term":"pitch","row":null,"stated":"pitch = 0.5 mm","count":1},
    {"note":"set-2/q3.md","rule":"wrong-value","block":"axle-sleeve","term":"observed reading","row":null,"stated":"2.494 cm","count":1}
  ]
}
`);
    expect(readdirSync(folder).sort()).toEqual(['old.json', 'set-1', 'set-2']);
    const second = check(folder, 'set-1', 'set-2');
    expect(second).toMatchObject({ status: 0, stdout: first.stdout, stderr: '' });
  });

  it('writes the same bytes again, and does not touch the file for it', () => {
    const folder = bank();
    check(folder, 'set-1', 'set-2', '--record-baseline');
    const [text, { ino }] = [read(folder, FILE), statSync(join(folder, FILE))];
    check(folder, 'set-2', 'set-1', '--record-baseline', '--jobs', '2');
    expect([read(folder, FILE), statSync(join(folder, FILE)).ino]).toEqual([text, ino]);
  });

  it('over one folder leaves what is recorded of another', () => {
    const folder = bank();
    check(folder, 'set-1', '--record-baseline');
    check(folder, 'set-2', '--record-baseline');
    expect(recordedIn(folder).map(({ note }) => note)).toEqual(['set-1/q1.md', 'set-1/q2.md', 'set-2/q3.md']);
  });
});

describe('an old finding', () => {
  it('is known again when lines above it come and go, and from another folder', () => {
    const folder = bank();
    check(folder, 'set-1', '--record-baseline');
    put(folder, 'set-1/q1.md', `A line.\n\n${WRONG_NOTE.replace('instrument: vernier calipers\n', '')}`);
    expect(summaryOf(check(folder, 'set-1', '--format', 'json'))).toMatchObject({ errors: 0, old: 2 });
    const within = leastwise(['check', '.', '--baseline', '../old.json', '--format', 'json'], {
      cwd: join(folder, 'set-1'),
    });
    expect(summaryOf(within)).toMatchObject({ errors: 0, warnings: 0, old: 2 });
  });

  it('hides no new one: not another value, not a second of its kind, not that of another note', () => {
    const folder = bank();
    check(folder, 'set-1', '--record-baseline');
    put(folder, 'set-1/q1.md', WRONG_NOTE.replace('2.494 cm', '2.594 cm'));
    expect(summaryOf(check(folder, 'set-1', '--format', 'json'))).toMatchObject({ errors: 1, old: 1 });
    put(folder, 'set-1/q1.md', WRONG_NOTE);
    const twice = `${WRONG_NOTE}\n\`observed reading of axle-sleeve = 2.494 cm\`\n`;
    put(folder, 'set-1/q1.md', twice);
    const run = check(folder, 'set-1/q1.md', '--format', 'json');
    expect(run.status).toBe(1);
    expect(summaryOf(run)).toMatchObject({ errors: 1, old: 1 });
    const again = JSON.parse(run.stdout).notes[0].findings;
    expect(again.map(({ line }: { line: number }) => line)).toEqual([twice.trimEnd().split('\n').length]);
    expect(summaryOf(check(folder, 'set-2', '--format', 'json'))).toMatchObject({ errors: 1, old: 0 });
  });

  it('is told apart by its words where it states no value', () => {
    const line = (words: string) => `\`\`\`measurement a\nmain scale: 1 MSD = 1 mm\n${words}\n\`\`\`\n`;
    const folder = folderOf({ 'q1.md': line('the pointer wobbled a bit') });
    check(folder, 'q1.md', '--record-baseline');
    expect(recordedIn(folder).map(({ count }) => count)).toEqual([1]);
    put(folder, 'q1.md', line('the lamp was dim that day'));
    expect(summaryOf(check(folder, 'q1.md', '--format', 'json'))).toMatchObject({ errors: 1, old: 0 });
  });

  it('is no part of the document where no baseline is asked for', () => {
    const folder = bank();
    const run = leastwise(['check', 'set-1', '--format', 'json'], { cwd: folder });
    expect(summaryOf(run)).toEqual({ notes: 2, blocks: 2, claims: 7, errors: 1, warnings: 1 });
  });
});

describe('--prune-baseline', () => {
  it('drops what no longer occurs, and nothing of notes that were not looked at', () => {
    const folder = bank();
    check(folder, '.', '--record-baseline');
    put(folder, 'set-1/q1.md', RIGHT_NOTE);
    put(folder, 'set-2/q3.md', RIGHT_NOTE);
    expect(check(folder, 'set-1', '--prune-baseline').stderr).toBe(
      'leastwise: old.json holds 2 findings now: 1 no longer occurs\n',
    );
    expect(recordedIn(folder).map(({ note }) => note)).toEqual(['set-1/q2.md', 'set-2/q3.md']);
  });

  it('drops what is recorded of notes that are gone, and of none that are only left out', () => {
    const folder = bank();
    check(folder, '.', '--record-baseline');
    rmSync(join(folder, 'set-2/q3.md'));
    put(folder, 'leastwise.config.json', '{ "ignore": ["set-1/q2.md"] }');
    check(folder, 'set-1', '--prune-baseline');
    expect(recordedIn(folder).map(({ note }) => note)).toEqual(['set-1/q1.md', 'set-1/q2.md']);
  });

  it('counts down, and records no new finding', () => {
    const again = '\n`observed reading of axle-sleeve = 2.494 cm`\n';
    const folder = folderOf({ 'q1.md': WRONG_NOTE + again + again });
    check(folder, 'q1.md', '--record-baseline');
    expect(recordedIn(folder).map(({ count }) => count)).toEqual([3]);
    put(folder, 'q1.md', `${WRONG_NOTE}${again}\n${WARNING_NOTE}`);
    const run = check(folder, 'q1.md', '--prune-baseline', '--format', 'json');
    expect(summaryOf(run)).toMatchObject({ errors: 0, warnings: 1, old: 2 });
    expect(recordedIn(folder)).toMatchObject([{ rule: 'wrong-value', count: 2 }]);
  });
});

describe('a file that is no baseline', () => {
  const LINE = '{"note":"q1.md","rule":"wrong-value","block":null,"term":null,"row":null,"stated":null';
  const HEAD = '{"format":"leastwise-baseline","version":1,"findings":[';
  it.each([
    ['', 'old.json is not a baseline of leastwise: it cannot be read as JSON'],
    ['# Notes\n', 'old.json is not a baseline of leastwise: it cannot be read as JSON'],
    ['{"name":"bench"}', 'old.json is not a baseline of leastwise: its `format` is not `leastwise-baseline`'],
    ['[]', 'old.json is not a baseline of leastwise: its `format` is not `leastwise-baseline`'],
    [
      '{"format":"leastwise-baseline","version":2,"findings":[]}',
      'old.json is a baseline of another version (2): this leastwise reads version 1',
    ],
    ['{"format":"leastwise-baseline","version":1}', 'old.json is damaged: its `findings` are no list'],
    [`${HEAD}${LINE},"count":0}]}`, 'old.json is damaged: finding 1 is incomplete'],
    [`${HEAD}${LINE},"count":1},{}]}`, 'old.json is damaged: finding 2 is incomplete'],
    [`${HEAD}${LINE},"count"`, 'old.json is not a baseline of leastwise: it cannot be read as JSON'],
  ])('%j is refused, and nothing is written over it', (text, sentence) => {
    const folder = folderOf({ 'q1.md': WRONG_NOTE, [FILE]: text });
    for (const words of [['--record-baseline'], ['--prune-baseline']])
      expect(check(folder, 'q1.md', ...words)).toEqual({
        status: 2,
        stdout: '',
        stderr: `leastwise: ${sentence}\n`,
      });
    expect(read(folder, FILE)).toBe(text);
  });

  it('is one that is not there, where it is only asked', () => {
    const folder = bank();
    expect(check(folder, 'set-1')).toMatchObject({
      status: 2,
      stderr: 'leastwise: there is no baseline old.json: --record-baseline writes one\n',
    });
    expect(readdirSync(folder).sort()).toEqual(['set-1', 'set-2']);
  });

  it('is a folder, or cannot be written', () => {
    const folder = folderOf({ 'q1.md': WRONG_NOTE, 'old.json/': '' });
    expect(check(folder, 'q1.md', '--record-baseline')).toMatchObject({ status: 2, stdout: '' });
    const words = ['check', 'q1.md', '--baseline', 'nowhere/old.json', '--record-baseline'];
    expect(leastwise(words, { cwd: folder })).toMatchObject({
      status: 2,
      stderr: 'leastwise: nowhere/old.json could not be written: it is gone, or its folder is\n',
    });
  });
});

it('goes with --fix: what is mended is not recorded', () => {
  const folder = bank();
  const run = check(folder, '.', '--fix', '--record-baseline');
  expect(run.stdout).toMatch(/nothing to correct \(1 waived\); 3 fixes made in 3 notes\n$/);
  expect(read(folder, FILE)).toBe(
    '{\n  "format": "leastwise-baseline",\n  "version": 1,\n  "findings": []\n}\n',
  );
});

it('knows the note on standard input by its name', () => {
  const folder = bank();
  check(folder, 'set-1', '--record-baseline');
  const named = ['check', '-', '--stdin-filename', 'set-1/q1.md', '--baseline', FILE];
  expect(leastwise(named, { cwd: folder, input: WRONG_NOTE })).toMatchObject({ status: 0 });
  const nameless = ['check', '-', '--baseline', FILE, '--record-baseline'];
  expect(leastwise(nameless, { cwd: folder, input: WRONG_NOTE })).toMatchObject({
    status: 2,
    stderr: expect.stringContaining('has no name that a baseline could keep'),
  });
});

it('follows a moved bank, since its paths begin beside it', () => {
  const folder = bank();
  leastwise(['check', 'set-1', '--baseline', 'set-1/old.json', '--record-baseline'], { cwd: folder });
  renameSync(join(folder, 'set-1'), join(folder, 'moved'));
  const run = leastwise(['check', 'moved', '--baseline', 'moved/old.json', '--format', 'json'], {
    cwd: folder,
  });
  expect(summaryOf(run)).toMatchObject({ errors: 0, old: 2 });
});

it.each([
  [['--record-baseline'], '--record-baseline needs a file: name it with --baseline'],
  [['--prune-baseline'], '--prune-baseline needs a file: name it with --baseline'],
  [
    ['--baseline', FILE, '--record-baseline', '--fix', '--dry-run'],
    '--dry-run writes nothing, so no baseline either',
  ],
  [
    ['--baseline', FILE, '--record-baseline', '--shard', '1/2'],
    'a baseline is changed by one run over the whole bank: leave --shard out',
  ],
  [
    ['--baseline', FILE, '--record-baseline', '--prune-baseline'],
    '--record-baseline drops already what no longer occurs: leave --prune-baseline out',
  ],
])('%j is refused with a sentence', (words, sentence) => {
  const folder = bank();
  expect(leastwise(['check', '.', ...words], { cwd: folder })).toEqual({
    status: 2,
    stdout: '',
    stderr: `leastwise: ${sentence}\n`,
  });
});
