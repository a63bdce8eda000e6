import { describe, expect, it } from 'vitest';
import { folderOf, leastwise } from '../../support/command.ts';

/** A question about a caliper with 10 vernier divisions; `lines` come behind its scales. */
function question(name: string, ...lines: readonly string[]): string {
  const block = [
    `\`\`\`measurement ${name}`,
    'instrument: vernier calipers',
    'main scale: 1 cm = 10 MSD',
    'vernier scale: 10 VSD = 9 MSD',
    ...lines,
    '```',
  ];
  return `${block.join('\n')}\n`;
}

const CHOICES = ['(A) 24.5 mm', '(B) 24.6 mm', '(C) 25.4 mm', '(D) 26.4 mm'];
const HUB = [
  'main scale reading: 24 mm',
  'coinciding division: 6',
  'find: observed reading',
  ...CHOICES,
  'answer: B',
];
/** The same instrument and the same observation, typed in another way. */
const SAME = `${[
  '```measurement seat-tube',
  'instrument: vernier caliper',
  'main scale: 10 mm = 10 MSD',
  'vernier scale: 1 VSD = 0.9 mm',
  'vernier scale: 10 divisions',
  'MSR: 2.4 cm',
  'VC: 6',
  'observed reading = 25.4 mm',
  '```',
].join('\n')}\n`;

function summary(files: Readonly<Record<string, string>>, ...words: readonly string[]) {
  return leastwise(['summary', '.', ...words], { cwd: folderOf(files) });
}

function holdings(files: Readonly<Record<string, string>>, ...words: readonly string[]) {
  const { stdout, status } = summary(files, '--format', 'json', ...words);
  return { ...JSON.parse(stdout), status };
}

describe('leastwise summary', () => {
  const bank = {
    'a.md': question('hub', ...HUB),
    'b/c.md': `${SAME}\n${question('least', 'find: least count', 'least count = ?')}`,
    'd.md': question('hub-again', ...HUB.map(line => line.replace('division: 6', 'division: 7'))),
    'plain.md': '# Nothing here\n',
  };

  it('counts instruments, terms, findings and keys', () => {
    const all = holdings(bank);
    expect(all).toMatchObject({ version: 1, notes: 4, blocks: 4, status: 0 });
    expect(all.instruments).toEqual([{ instrument: 'vernier calipers', blocks: 4 }]);
    expect(all.asked).toEqual([
      { term: 'observed reading', blocks: 2 },
      { term: 'least count', blocks: 1 },
    ]);
    // 24 mm + 6 × 0.1 mm is 24.6 mm, so 25.4 mm is wrong and, with division 7, so is the key B.
    expect(all.rules.map(({ rule }: { rule: string }) => rule)).toContain('wrong-value');
    expect(all.keys.find(({ letter }: { letter: string }) => letter === 'B')).toMatchObject({
      keys: 2,
      choices: 2,
      evenShare: '0.5',
      isFarTooOften: false,
    });
  });

  it('finds questions with the same scales and observations, however they are typed', () => {
    expect(holdings(bank).duplicates).toEqual([
      [
        { path: 'a.md', line: 1, block: 'hub' },
        { path: 'b/c.md', line: 1, block: 'seat-tube' },
      ],
    ]);
  });

  it('takes a block that is used for no question of its own, but one that records anew for one', () => {
    const asking = (name: string, ...lines: readonly string[]) =>
      `\n\`\`\`measurement ${name}\nuses: hub\n${lines.join('\n')}\n\`\`\`\n`;
    const hub = question('hub', 'main scale reading: 24 mm', 'coinciding division: 6');
    const note = [
      hub,
      asking('q7', 'find: observed reading'),
      asking('q8', 'find: vernier scale reading'),
      asking('q9', 'main scale reading: 30 mm', 'coinciding division: 6', 'find: observed reading'),
    ].join('');
    expect(holdings({ 'a.md': note }).duplicates).toEqual([]);
    // The hub has 7 lines, each of the two that ask 5 with the empty one, and q9 7: they begin in 1, 9, 14, 19 and 26.
    const again = asking(
      'q10',
      'main scale reading: 3 cm',
      'coinciding division: 6',
      'find: observed reading',
    );
    expect(holdings({ 'a.md': note + again, 'b.md': hub }).duplicates).toEqual([
      [
        { path: 'a.md', line: 19, block: 'q9' },
        { path: 'a.md', line: 26, block: 'q10' },
      ],
      [
        { path: 'a.md', line: 1, block: 'hub' },
        { path: 'b.md', line: 1, block: 'hub' },
      ],
    ]);
  });

  it('says so of a bank whose key is nearly always the same letter', () => {
    const files = Object.fromEntries(
      Array.from({ length: 20 }, (_, at) => [
        `q${at}.md`,
        question(
          `q-${at}`,
          `main scale reading: ${at + 1} mm`,
          'coinciding division: 3',
          'find: observed reading',
          ...CHOICES,
          'answer: C',
        ),
      ]),
    );
    expect(summary(files).stdout).toMatch(/^ +C +20 +20 +5\.0 +far too often: worth a look$/m);
    expect(summary(files).stdout).not.toMatch(/^ +B .*worth a look$/m);
  });

  it('prints tables for people, without colours into a pipe', () => {
    const { stdout } = summary(bank);
    expect(stdout).toMatch(/^4 notes, 4 blocks\n\nInstruments\n/);
    expect(stdout).toMatch(/^ +vernier calipers +4$/m);
    expect(stdout).toContain('a.md:1 (hub), b/c.md:1 (seat-tube)');
    expect(stdout).not.toContain('\u001b');
  });

  it('tells neither keys nor slips of notes that students work in', () => {
    const all = holdings({ ...bank, 'leastwise.config.json': '{ "student": true }' });
    expect(all.keys).toEqual([]);
    expect(all.slips).toEqual([]);
    expect(all.blocks).toBe(4);
  });

  it('tells what cannot be read and counts the rest', () => {
    const run = leastwise(['summary', 'a.md', 'missing.md', '--format', 'json'], { cwd: folderOf(bank) });
    expect(run.status).toBe(2);
    expect(run.stderr).toContain('missing.md');
    expect(JSON.parse(run.stdout).notes).toBe(1);
  });

  it('writes names of notes harmlessly', () => {
    const { stdout } = summary({
      'a\u001b[31m.md': question('hub', ...HUB),
      'b.md': question('hub', ...HUB),
    });
    expect(stdout).not.toContain('\u001b');
  });
});
