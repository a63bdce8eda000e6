import { spawn, spawnSync } from 'node:child_process';
import {
  closeSync,
  existsSync,
  lstatSync,
  openSync,
  readdirSync,
  readFileSync,
  statSync,
  symlinkSync,
} from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { folderOf, LAUNCHER, leastwise } from '../support/command.ts';
import { PLAIN_NOTE, RIGHT_NOTE, WARNING_NOTE, WRONG_NOTE } from '../support/workshop-notes.ts';

const NOTES = { 'a.md': WRONG_NOTE, 'b.md': RIGHT_NOTE, 'c.md': WARNING_NOTE };

function check(words: readonly string[], cwd: string) {
  return leastwise(['check', ...words], { cwd });
}

/** Files that are being written begin with a dot. */
function namesIn(folder: string): readonly string[] {
  return readdirSync(folder).sort();
}

describe('--report', () => {
  it.each(['json', 'sarif', 'junit', 'github', 'pretty'])(
    'writes the %s report that standard output would have',
    format => {
      const cwd = folderOf(NOTES);
      const plain = check(['a.md', 'b.md', 'c.md', '--format', format], cwd);
      const run = check(['a.md', 'b.md', 'c.md', '--report', `${format}=report.txt`], cwd);
      expect(run).toMatchObject({ status: plain.status, stderr: '' });
      const lines = (text: string) => text.split('\n').filter(line => !line.includes('│'));
      expect(lines(readFileSync(join(cwd, 'report.txt'), 'utf8'))).toEqual(lines(plain.stdout));
    },
  );

  it('writes several reports at once, into folders that it makes', () => {
    const cwd = folderOf(NOTES);
    const words = [
      '--report',
      'json=out/deep/a.json',
      '--report',
      'sarif=out/a.sarif',
      '--report',
      'json=b=c.json',
    ];
    expect(check(['a.md', ...words], cwd)).toMatchObject({ status: 1, stderr: '' });
    expect(JSON.parse(readFileSync(join(cwd, 'out/deep/a.json'), 'utf8')).summary.errors).toBe(1);
    expect(JSON.parse(readFileSync(join(cwd, 'out/a.sarif'), 'utf8')).version).toBe('2.1.0');
    expect(readFileSync(join(cwd, 'b=c.json'), 'utf8')).toBe(
      readFileSync(join(cwd, 'out/deep/a.json'), 'utf8'),
    );
    expect(namesIn(join(cwd, 'out'))).toEqual(['a.sarif', 'deep']);
  });

  it('puts a report in the place of an older one, with its rights, and follows a link to it', () => {
    const cwd = folderOf({ ...NOTES, 'kept/old.json': 'old' });
    symlinkSync('kept/old.json', join(cwd, 'link.json'));
    expect(check(['a.md', '--report', 'json=link.json'], cwd).status).toBe(1);
    expect(lstatSync(join(cwd, 'link.json')).isSymbolicLink()).toBe(true);
    expect(JSON.parse(readFileSync(join(cwd, 'kept/old.json'), 'utf8')).version).toBe(1);
    expect(namesIn(join(cwd, 'kept'))).toEqual(['old.json']);
  });

  it.each([
    [
      ['json=one.json', '--report', 'sarif=./one.json'],
      'two reports would go into one file, ./one.json, which is one.json as well',
    ],
    [['json=one.json', '--report', 'sarif=one.json'], 'two reports would go into one file, one.json'],
    [['json=kept'], 'kept is a folder, and a report needs the name of a file'],
    [['json=a.md'], 'a.md is the name of a note, and the next check would take the report for one'],
    [
      ['json=a.md/report.json'],
      'a.md/report.json could not be written: a file stands where a folder is needed',
    ],
    [['json=nowhere.json'], 'nowhere.json is a link that leads nowhere'],
    [
      ['json=/dev/null'],
      '/dev/null is no file that a report could take the place of: what goes to standard output is chosen by --format',
    ],
    [
      ['json=/dev/stdout'],
      '/dev/stdout is no file that a report could take the place of: what goes to standard output is chosen by --format',
    ],
  ])('refuses %s before anything is checked', (words, sentence) => {
    const cwd = folderOf({ ...NOTES, 'kept/': '' });
    symlinkSync('gone', join(cwd, 'nowhere.json'));
    const before = namesIn(cwd);
    const run = check(['a.md', '--report', ...words], cwd);
    expect(run).toEqual({ status: 2, stdout: '', stderr: `leastwise: ${sentence}\n` });
    expect(namesIn(cwd)).toEqual(before);
    expect(readFileSync(join(cwd, 'a.md'), 'utf8')).toBe(WRONG_NOTE);
  });

  it.each([
    ['--baseline old.json', './old.json', 'the baseline of this run, and no report takes its place'],
    [
      '--baseline new/old.json --record-baseline',
      'new/old.json',
      'the baseline of this run, and no report takes its place',
    ],
    ['--config ours.json', 'link.json', 'the configuration of this run, and no report takes its place'],
    ['q.txt', 'q.txt', 'one of the notes to check, and no report takes its place'],
    [
      '',
      'leastwise.config.json',
      'the name of a configuration, and the next check would take the report for one',
    ],
    [
      '',
      'new/.leastwiseignore',
      'the name of a configuration, and the next check would take the report for one',
    ],
    ['', 'to-note.json', 'the name of a note, and the next check would take the report for one'],
  ])('with %j refuses %s, which the run or the next one needs', (words, file, sentence) => {
    const cwd = folderOf({ ...NOTES, 'ours.json': '{}', 'leastwise.config.json': '{}', 'q.txt': RIGHT_NOTE });
    check(['a.md', '--baseline', 'old.json', '--record-baseline'], cwd);
    symlinkSync('ours.json', join(cwd, 'link.json'));
    symlinkSync('b.md', join(cwd, 'to-note.json'));
    const texts = () => ['ours.json', 'old.json', 'b.md', 'q.txt'].map(name => readFileSync(join(cwd, name)));
    const before = texts();
    const run = check(['a.md', ...words.split(' ').filter(Boolean), '--report', `json=${file}`], cwd);
    expect(run).toEqual({ status: 2, stdout: '', stderr: `leastwise: ${file} is ${sentence}\n` });
    expect(texts()).toEqual(before);
  });

  it('refuses the file that standard output goes to, by whatever name', () => {
    const cwd = folderOf(NOTES);
    for (const file of ['out.txt', '/dev/stdout', 'link.txt']) {
      const out = openSync(join(cwd, 'out.txt'), 'w');
      if (!existsSync(join(cwd, 'link.txt'))) symlinkSync('out.txt', join(cwd, 'link.txt'));
      const words = [LAUNCHER, 'check', 'a.md', '--report', `json=${file}`];
      const run = spawnSync(process.execPath, words, {
        cwd,
        stdio: ['ignore', out, 'pipe'],
        encoding: 'utf8',
      });
      closeSync(out);
      expect(run.stderr).toBe(`leastwise: ${file} is where the output of this very command goes already\n`);
      expect(run.status).toBe(2);
    }
  });

  it.each(['json', 'json=', 'xml=a.xml', '=a.json', ''])('says how it is written where it is %j', typed => {
    const { status, stderr } = check(['a.md', '--report', typed], folderOf(NOTES));
    expect(status).toBe(2);
    expect(stderr).toContain(
      'a format (pretty, json, sarif, junit or github) and a file, as in sarif=reports/notes.sarif',
    );
    expect(stderr.trimEnd().split('\n')).toHaveLength(1);
  });

  it('leaves an older report where the new one cannot be written, and says so', () => {
    const many = Object.fromEntries(Array.from({ length: 60 }, (_, at) => [`notes/${at}.md`, WRONG_NOTE]));
    const cwd = folderOf({ ...many, 'report.json': 'old' });
    // No file may grow beyond 8 blocks: what a full disk says, from the system itself.
    const script = `trap '' XFSZ; ulimit -f 8; exec "$0" "$@"`;
    const words = [LAUNCHER, 'check', 'notes', '--jobs', '1', '--report', 'json=report.json'];
    const run = spawnSync('sh', ['-c', script, process.execPath, ...words], { cwd, encoding: 'utf8' });
    expect(run.stderr).toBe(
      'leastwise: report.json could not be written: it is larger than a file may be here, so the report that stood there stays\n',
    );
    expect(run.status).toBe(2);
    expect(run.stdout).toContain('60 notes');
    expect(readFileSync(join(cwd, 'report.json'), 'utf8')).toBe('old');
    expect(namesIn(cwd)).toEqual(['notes', 'report.json']);
  });

  it('says where it may not write', () => {
    const cwd = folderOf({ ...NOTES, 'mine/': '' });
    const run = leastwise(['check', join(cwd, 'a.md'), '--report', `json=${join(cwd, 'mine/r.json')}`], {
      cwd,
      withoutRights: true,
    });
    // Whoever runs the tests without an administrator's rights owns the folder, and may write there.
    if (process.getuid?.() !== 0) return expect(run.status).toBe(1);
    expect(run.status).toBe(2);
    expect(run.stderr).toContain('may not be written: the permission is missing');
  });

  it('shows nobody a half report: a run that is killed leaves the old one, and the next run clears up', async () => {
    const cwd = folderOf({ 'report.json': 'old', 'a.md': WRONG_NOTE });
    // It waits for standard input, so its report is opened and not yet whole.
    const run = spawn(process.execPath, [LAUNCHER, 'check', '-', '--report', 'json=report.json'], {
      cwd,
      stdio: ['pipe', 'ignore', 'ignore'],
    });
    const isOpened = () => namesIn(cwd).some(name => name.endsWith('.part'));
    for (const deadline = Date.now() + 60_000; !isOpened() && Date.now() < deadline; ) await nextLook();
    expect(isOpened()).toBe(true);
    const ended = new Promise(resolve => run.on('close', resolve));
    run.kill('SIGKILL');
    await ended;
    expect(readFileSync(join(cwd, 'report.json'), 'utf8')).toBe('old');
    expect(check(['a.md', '--report', 'json=report.json'], cwd).status).toBe(1);
    expect(namesIn(cwd)).toEqual(['a.md', 'report.json']);
    expect(statSync(join(cwd, 'report.json')).size).toBeGreaterThan(100);
  });
});

function nextLook(): Promise<void> {
  return new Promise(resolve => setImmediate(resolve));
}

describe('--quiet', () => {
  it.each(['pretty', 'json', 'sarif', 'junit', 'github'])('lists errors only in the %s report', format => {
    const cwd = folderOf(NOTES);
    const loud = check(['.', '--format', format], cwd);
    const quiet = check(['.', '--format', format, '--quiet'], cwd);
    const results = (text: string) =>
      format === 'sarif' ? JSON.stringify(JSON.parse(text).runs[0].results) : text;
    expect(results(loud.stdout)).toContain('taken-as-given');
    expect(results(quiet.stdout)).not.toContain('taken-as-given');
    expect(results(quiet.stdout)).toContain('wrong-value');
    expect(quiet.status).toBe(1);
  });

  it('goes on counting warnings', () => {
    const cwd = folderOf(NOTES);
    expect(check(['.', '--quiet'], cwd).stdout).toContain('1 error, 1 warning');
    expect(JSON.parse(check(['.', '--quiet', '--format', 'json'], cwd).stdout).summary).toMatchObject({
      ...{ errors: 1, warnings: 1 },
    });
  });
});

describe('--max-warnings', () => {
  const cwdOf = () => folderOf({ 'a.md': WARNING_NOTE, 'b.md': WARNING_NOTE, 'c.md': PLAIN_NOTE });

  it.each([
    ['2', 0, ''],
    ['1', 1, 'leastwise: there are 2 warnings, and --max-warnings allows 1\n'],
    ['0', 1, 'leastwise: there are 2 warnings, and --max-warnings allows none\n'],
  ])('allows %s', (most, status, stderr) => {
    expect(check(['.', '--max-warnings', most], cwdOf())).toMatchObject({ status, stderr });
    expect(check(['.', '--max-warnings', most, '--quiet'], cwdOf())).toMatchObject({ status, stderr });
  });

  it.each(['-1', 'few', '1.5', ''])('says what it takes where it is %j', typed => {
    const { status, stderr } = check(['.', `--max-warnings=${typed}`], cwdOf());
    expect(status).toBe(2);
    expect(stderr).toContain('a whole number from 0 on');
  });
});

/** Enough warnings that a report must put them by in a file: 600 of them, of some 900 signs each. */
const MANY_WARNINGS = Object.fromEntries(
  Array.from({ length: 6 }, (_, note) => [
    `set/q${note}.md`,
    Array.from({ length: 100 }, (_, at) => WARNING_NOTE.replace('bearing-ball', `bearing-ball-${at}`)).join(
      '\n',
    ),
  ]),
);

it('is a document all the same where a part of it could not be put by', () => {
  const cwd = folderOf({ ...MANY_WARNINGS, 'a.md': WRONG_NOTE });
  const words = ['check', 'a.md', 'set', 'gone.md', '--format', 'sarif'];
  const run = leastwise(words, { cwd, env: { TMPDIR: join(cwd, 'nowhere') } });
  const lost =
    'a part of a report could not be put by in the folder for temporary files (ENOENT), so the report is not whole';
  const gone = 'there is no file or folder gone.md';
  expect(run).toMatchObject({ status: 2, stderr: `leastwise: ${gone}\nleastwise: ${lost}\n` });
  const [{ results, invocations }] = JSON.parse(run.stdout).runs;
  // The one error is in it.
  expect(results).toHaveLength(1);
  expect(invocations).toMatchObject([
    {
      executionSuccessful: false,
      toolExecutionNotifications: [{ message: { text: gone } }, { message: { text: lost } }],
    },
  ]);
  expect(JSON.parse(leastwise(words, { cwd }).stdout).runs[0].results).toHaveLength(601);
});
