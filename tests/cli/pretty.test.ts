import { describe, expect, it } from 'vitest';
import type { Finding } from '../../server/src/checks/finding.ts';
import { coloursFor } from '../../server/src/cli/colours.ts';
import { prettyReporter } from '../../server/src/cli/reporters/pretty.ts';
import { EMPTY_SUMMARY } from '../../server/src/cli/summary.ts';
import { folderOf, leastwise } from '../support/command.ts';
import { aFinding } from '../support/fake-check.ts';
import { PLAIN_NOTE, RIGHT_NOTE, WAIVING_NOTE, WARNING_NOTE, WRONG_NOTE } from '../support/workshop-notes.ts';

const text = '# Axles\n\nleast count = 0.01 cm\n\tR = 2.494 cm\n';

function spanOf(words: string) {
  const start = text.indexOf(words);
  return { start, end: start + words.length };
}

async function report(
  parts: Partial<Finding>,
  { colour = false, ...options }: { colour?: boolean; width?: number; waived?: boolean } = {},
) {
  const reporter = prettyReporter({
    colours: await coloursFor(colour),
    width: 70,
    waived: false,
    quiet: false,
    ...options,
  });
  const findings = [aFinding({ span: spanOf('2.494 cm'), ...parts })];
  return reporter.note('set/axles.md', text, { blocks: [], findings });
}

describe('a margin note', () => {
  it('shows the place, what is stated, what is right and why', async () => {
    const told = await report({
      message: 'the reading is stated as 2.494 cm, but 2.45 cm and 17 least counts of 0.002 cm make 2.484 cm',
      block: 'axle-sleeve',
      row: 2,
      stated: '2.494 cm',
      computed: '2.484 cm',
      slip: 'digits-swapped',
      cause: spanOf('0.01 cm'),
      related: [
        { span: spanOf('0.01 cm'), message: 'the root cause' },
        { span: spanOf('# Axles'), message: 'the first of two' },
      ],
      fixes: [{ title: 'write 2.484 cm', sure: true, edits: [] }],
    });
    expect(told).toBe(
      [
        'set/axles.md, line 4 (block axle-sleeve, row 2)',
        '    error │     R = 2.494 cm',
        '          │         ^^^^^^^^',
        '   stated │ 2.494 cm',
        '    right │ 2.484 cm',
        '      why │ the reading is stated as 2.494 cm, but 2.45 cm and 17',
        '          │ least counts of 0.002 cm make 2.484 cm',
        '     from │ line 3: least count = 0.01 cm',
        '      see │ line 1: # Axles (the first of two)',
        '     mend │ write 2.484 cm',
        '     rule │ wrong-value, the slip digits-swapped',
        '',
        '',
      ].join('\n'),
    );
  });

  it('leaves out what there is none of', async () => {
    expect(await report({ severity: 'warning' })).toBe(
      [
        'set/axles.md, line 4',
        '  warning │     R = 2.494 cm',
        '          │         ^^^^^^^^',
        '      why │ the reading is 2.484 cm',
        '     rule │ wrong-value',
        '',
        '',
      ].join('\n'),
    );
  });

  it('shows a waived finding only when asked, with its reason', async () => {
    expect(await report({ waived: 'as printed' })).toBe('');
    const told = await report({ waived: 'as printed' }, { waived: true });
    expect(told).toContain('   waived │     R = 2.494 cm');
    expect(told).toContain('  because │ as printed');
  });

  it('keeps control characters from every part', async () => {
    const bad = '\x1b[2J\x9b\u202e';
    const told = await report(
      {
        message: bad,
        block: bad,
        row: bad,
        stated: bad,
        computed: bad,
        waived: bad,
        related: [{ span: spanOf('# Axles'), message: bad }],
        fixes: [{ title: bad, sure: true, edits: [] }],
      },
      { waived: true },
    );
    expect(told).not.toMatch(/[\x00-\x09\x0b-\x1f\x7f-\x9f\u202e]/);
    expect(told.match(/<U\+001B>/g)).toHaveLength(8);
  });

  it('fits a narrow terminal', async () => {
    const told = await report({ message: 'a long word after another '.repeat(10).trim() }, { width: 44 });
    for (const line of told.split('\n')) expect(line.length).toBeLessThanOrEqual(44);
  });

  it('says the same with colours', async () => {
    const plain = await report({ stated: '2.494 cm' });
    const coloured = await report({ stated: '2.494 cm' }, { colour: true });
    expect(coloured).not.toBe(plain);
    expect(coloured.replace(/\x1b\[\d+m/g, '')).toBe(plain);
  });
});

describe('the last line', () => {
  const closing = async (counts: object) =>
    prettyReporter({ colours: await coloursFor(false), width: 80, waived: false, quiet: false }).closing({
      ...EMPTY_SUMMARY,
      ...counts,
    });

  it('counts what was seen and found', async () => {
    expect(await closing({ notes: 2, blocks: 1, claims: 5, errors: 1, warnings: 2, waived: 1 })).toBe(
      '2 notes, 1 block, 5 claims checked: 1 error, 2 warnings (1 waived)\n',
    );
    expect(await closing({ notes: 1, blocks: 1, claims: 1 })).toBe(
      '1 note, 1 block, 1 claim checked: nothing to correct\n',
    );
    expect(await closing({ notes: 1 })).toBe(
      '1 note, 0 blocks, 0 claims checked: there is no measurement block\n',
    );
    expect(await closing({})).toBe('');
  });
});

describe('the command', () => {
  it.each([
    [0, 'nothing is wrong', RIGHT_NOTE],
    [0, 'there are warnings only', WARNING_NOTE],
    [0, 'there is no block', PLAIN_NOTE],
    [0, 'the errors are waived', WAIVING_NOTE],
    [0, 'a note is empty', ''],
    [1, 'there is an error', WRONG_NOTE],
  ])('gives %i where %s', (status, _, note) => {
    const run = leastwise(['check', 'a.md'], { cwd: folderOf({ 'a.md': note }) });
    expect(run).toMatchObject({ status, stderr: '' });
  });

  it('reports the design’s example', () => {
    const { stdout } = leastwise(['check', 'a.md'], { cwd: folderOf({ 'a.md': WRONG_NOTE }) });
    expect(stdout).toMatch(/^a\.md, line 15 \(block axle-sleeve\)\n {4}error │ observed reading = /);
    expect(stdout).toContain('   stated │ 2.494 cm\n    right │ 2.484 cm\n      why │ ');
    expect(stdout).toMatch(/\n1 note, 1 block, \d+ claims checked: 1 error\n$/);
  });

  it('warns and goes on', () => {
    const { stdout } = leastwise(['check', 'a.md'], { cwd: folderOf({ 'a.md': WARNING_NOTE }) });
    expect(stdout).toContain('  warning │ pitch = 0.5 mm');
    expect(stdout).toContain('     rule │ taken-as-given');
  });

  it('lists waived findings for --waived', () => {
    const cwd = folderOf({ 'a.md': WAIVING_NOTE });
    expect(leastwise(['check', 'a.md'], { cwd }).stdout).toMatch(/: nothing to correct \(1 waived\)\n$/);
    expect(leastwise(['check', 'a.md', '--waived'], { cwd }).stdout).toContain(
      '  because │ printed this way in the exercise sheet',
    );
  });

  it.each([
    ['a pipe', {}, false],
    ['FORCE_COLOR', { FORCE_COLOR: '1' }, true],
    ['FORCE_COLOR=0', { FORCE_COLOR: '0' }, false],
    ['NO_COLOR before FORCE_COLOR', { NO_COLOR: '1', FORCE_COLOR: '1' }, false],
    ['a build machine', { CI: '1' }, false],
  ])('colours for %s: %j, %s', (_, env, coloured) => {
    const run = leastwise(['check', '-'], { input: WRONG_NOTE, env });
    expect(run.stdout.includes('\x1b[')).toBe(coloured);
  });

  it('marks the right place in a note with a byte-order mark, CRLF and wide signs', () => {
    const note = `\ufeff${WRONG_NOTE.replace('observed reading =', '観測値 observed reading =')}`.replaceAll(
      '\n',
      '\r\n',
    );
    const told = leastwise(['check', '-'], { input: note.replace('観測値 ', '') }).stdout;
    expect(told).toMatch(/line 15 .*\n.*= 2\.494 cm\n {10}│ +\^{8}\n/);
    expect(told).not.toContain('<U+');
  });
});
