import { describe, expect, it } from 'vitest';
import { folderOf, leastwise, type Run, type RunOptions } from '../support/command.ts';

const NOTE = `\`\`\`measurement spoke-gauge
main scale: 1 mm = 1 MSD
vernier scale: 10 VSD = 9 MSD
main scale reading: 24 mm
coinciding division: 7
observed reading = 24.8 mm
\`\`\`
`;

interface Report {
  readonly notes: readonly {
    readonly path: string;
    readonly findings: readonly { readonly severity: string; readonly computed: string | null }[];
  }[];
}

/** What is found in each note, in short. */
function found(words: readonly string[], options: RunOptions): Readonly<Record<string, string>> {
  const report = JSON.parse(run(words, options).stdout) as Report;
  return Object.fromEntries(
    report.notes.map(({ path, findings }) => [
      path,
      findings.map(({ severity, computed }) => `${severity} ${computed}`).join(', '),
    ]),
  );
}

function run(words: readonly string[], options: RunOptions): Run {
  return leastwise(['check', '--format', 'json', ...words], options);
}

describe('the configuration of the command', () => {
  const bank = () =>
    folderOf({
      'first.md': NOTE,
      'set/leastwise.config.json': '{ "rules": { "wrong-value": "warning" }, "ignore": ["drafts/"] }',
      'set/second.md': NOTE,
      'set/drafts/third.md': NOTE,
      'set/lessons/fourth.md': NOTE,
      'set/pupils/leastwise.config.json': '{ "student": true }',
      'set/pupils/fifth.md': NOTE,
      'other.json': '{ "rules": { "wrong-value": "off" } }',
    });

  it('is the nearest above each note', () => {
    expect(found(['.'], { cwd: bank() })).toEqual({
      'first.md': 'error 24.7 mm',
      'set/lessons/fourth.md': 'warning 24.7 mm',
      'set/pupils/fifth.md': 'error null',
      'set/second.md': 'warning 24.7 mm',
    });
    // From wherever the command runs.
    const cwd = bank();
    expect(found(['fourth.md'], { cwd: `${cwd}/set/lessons` })).toEqual({ 'fourth.md': 'warning 24.7 mm' });
    expect(Object.values(found(['-'], { cwd: `${cwd}/set/pupils`, input: NOTE }))).toEqual(['error null']);
    const named = ['-', '--stdin-filename', 'set/second.md'];
    expect(Object.values(found(named, { cwd, input: NOTE }))).toEqual(['warning 24.7 mm']);
  });

  it('is another one, or none, where that is said', () => {
    const cwd = bank();
    expect(found(['.', '--config', 'other.json'], { cwd })).toEqual({
      'first.md': '',
      'set/drafts/third.md': '',
      'set/lessons/fourth.md': '',
      'set/pupils/fifth.md': '',
      'set/second.md': '',
    });
    expect(new Set(Object.values(found(['.', '--no-config'], { cwd })))).toEqual(new Set(['error 24.7 mm']));
    const none = run(['.', '--config', 'none.json'], { cwd });
    expect(none.status).toBe(2);
    expect(none.stderr).toBe('leastwise: there is no file or folder none.json\n');
  });

  it('that leaves a note out says so to whoever names it', () => {
    const cwd = bank();
    const { status, stdout, stderr } = run(['set/drafts/third.md'], { cwd });
    expect((JSON.parse(stdout) as Report).notes).toEqual([]);
    expect(status).toBe(0);
    expect(stderr).toBe(
      'leastwise: set/drafts/third.md is left out: `ignore` in set/leastwise.config.json says so\n',
    );
    expect(run(['set/drafts'], { cwd }).stderr).toBe(
      'leastwise: nothing is checked: the one note found is left out by what leastwise is told to ignore\n',
    );
    expect(run(['set'], { cwd }).stderr).toBe('');
  });

  it('that is broken is told once with its place, and checks nothing', () => {
    const cwd = folderOf({
      'a.md': NOTE,
      'b.md': NOTE,
      'leastwise.config.json': '{\n  "studnet": true,\n  "rules": { "wrong-valeu": "off" }\n}\n',
    });
    const { status, stdout, stderr } = run(['.'], { cwd });
    expect(status).toBe(2);
    expect((JSON.parse(stdout) as Report).notes).toEqual([]);
    expect(stderr).toBe(
      [
        'leastwise: leastwise.config.json:2:3: there is no setting studnet; student is likely meant',
        'leastwise: leastwise.config.json:3:14: there is no rule wrong-valeu; wrong-value is likely meant',
        '',
      ].join('\n'),
    );
    const work = leastwise(['work', 'a.md'], { cwd });
    expect([work.status, work.stdout]).toEqual([2, '']);
    const torn = folderOf({ 'a.md': NOTE, 'leastwise.config.json': '{ "student": true\n' });
    expect(run(['.'], { cwd: torn }).stderr).toBe(
      'leastwise: leastwise.config.json:2:1: this is not JSON: the brace } that closes it is missing\n',
    );
  });

  it('is what workings follow, and keeps them from students', () => {
    const cwd = folderOf({
      'a.md': NOTE,
      'leastwise.config.json': '{ "way": "scales" }',
      'pupils/leastwise.config.json': '{ "student": true }',
      'pupils/b.md': NOTE,
    });
    const asked = leastwise(['work', 'a.md', '--way', 'scales', '--no-config'], { cwd }).stdout;
    expect(leastwise(['work', 'a.md'], { cwd }).stdout).toBe(asked);
    expect(leastwise(['work', 'a.md', '--no-config'], { cwd }).stdout).not.toBe(asked);
    for (const words of [[], ['--insert'], ['--as', 'lines']]) {
      const { status, stdout, stderr } = leastwise(['work', 'pupils/b.md', ...words], { cwd });
      expect([status, stdout]).toEqual([1, '']);
      expect(stderr).toBe(
        'leastwise: pupils/b.md is for students to work out, as pupils/leastwise.config.json says (`student`), so no working is shown\n',
      );
    }
  });
});
