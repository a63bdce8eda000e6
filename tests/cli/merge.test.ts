import { readFileSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { folderOf, leastwise, type Run } from '../support/command.ts';
import { RIGHT_NOTE, WARNING_NOTE, WRONG_NOTE } from '../support/workshop-notes.ts';

const NOTES = {
  'set/a.md': RIGHT_NOTE,
  'set/b.md': WRONG_NOTE,
  'set/c.md': WARNING_NOTE,
  'set/d.md': '# Oil\n',
  'set/e.md': RIGHT_NOTE,
};

function check(cwd: string, ...words: readonly string[]): Run {
  return leastwise(['check', 'set', '--format', 'json', ...words], { cwd });
}

/** The reports of all shares, as files beside the notes. */
function shares(cwd: string, of: number, ...words: readonly string[]): readonly string[] {
  return Array.from({ length: of }, (_, at) => {
    const name = `share-${at + 1}-of-${of}.json`;
    writeFileSync(join(cwd, name), check(cwd, '--shard', `${at + 1}/${of}`, ...words).stdout);
    return name;
  });
}

function merge(cwd: string, ...names: readonly string[]): Run {
  return leastwise(['merge', ...names], { cwd });
}

const refused = (sentence: string) => ({ status: 2, stdout: '', stderr: `leastwise: ${sentence}\n` });

describe('the shares of a bank', () => {
  it.each([1, 2, 3, 5, 7])('are put together as one run would have it, of %i', of => {
    const cwd = folderOf(NOTES);
    const plain = check(cwd);
    expect(plain.status).toBe(1);
    expect(merge(cwd, ...[...shares(cwd, of)].reverse())).toEqual(plain);
  });

  it('are dealt out in turn, each note once', () => {
    const cwd = folderOf(NOTES);
    const paths = shares(cwd, 2).map(name =>
      JSON.parse(readFileSync(join(cwd, name), 'utf8')).notes.map((note: { path: string }) => note.path),
    );
    expect(paths).toEqual([
      ['set/a.md', 'set/c.md', 'set/e.md'],
      ['set/b.md', 'set/d.md'],
    ]);
  });

  it('say in their document which they are', () => {
    const cwd = folderOf(NOTES);
    const [first, second] = shares(cwd, 2).map(name => JSON.parse(readFileSync(join(cwd, name), 'utf8')));
    expect(first.share).toMatchObject({ index: 1, of: 2, places: 3, without: [], troubles: [] });
    expect(second.share).toMatchObject({ index: 2, of: 2, places: 2 });
    expect(first.share.bank).toMatch(/^[0-9a-f]{64}$/);
    expect(second.share.bank).toBe(first.share.bank);
  });

  it('keep their places where notes are left out, with waived findings and without any note', () => {
    const cwd = folderOf({
      ...NOTES,
      'set/bench/a.md': WRONG_NOTE,
      'set/bench/b.md': RIGHT_NOTE,
      'set/waived.md': WRONG_NOTE.replace('closed:', 'waive: wrong-value, printed this way\nclosed:'),
      'leastwise.config.json': '{"ignore":["set/b*.md","set/bench/b.md","set/e.md"]}',
    });
    for (const words of [[], ['--waived'], ['--no-config'], ['--cache']])
      expect(merge(cwd, ...shares(cwd, 3, ...words))).toEqual(check(cwd, ...words));
    writeFileSync(join(cwd, 'leastwise.config.json'), '{"ignore":["**"]}');
    // That nothing was checked is told by a run that looked, and stands in no share.
    const { stderr, ...whole } = check(cwd);
    expect(stderr).toMatch(/^leastwise: nothing is checked: all \d+ notes found are left out/);
    expect(merge(cwd, ...shares(cwd, 2))).toEqual({ ...whole, stderr: '' });
  });

  it('have the status of the whole: 0 where nothing is wrong', () => {
    const cwd = folderOf({ 'set/a.md': RIGHT_NOTE, 'set/b.md': WARNING_NOTE });
    expect(merge(cwd, ...shares(cwd, 2))).toMatchObject({ status: 0, stderr: '' });
  });

  it('count too many warnings as one run does', () => {
    const cwd = folderOf({ 'set/a.md': RIGHT_NOTE, 'set/b.md': WARNING_NOTE, 'set/c.md': WARNING_NOTE });
    const names = shares(cwd, 2);
    for (const most of ['1', '2'])
      expect(merge(cwd, ...names, '--max-warnings', most)).toEqual(check(cwd, '--max-warnings', most));
  });

  it('hold back what a baseline knows, and list errors only, as one run does', () => {
    const cwd = folderOf(NOTES);
    check(cwd, '--baseline', 'old.json', '--record-baseline');
    writeFileSync(join(cwd, 'set/f.md'), WRONG_NOTE);
    for (const words of [
      ['--baseline', 'old.json'],
      ['--quiet'],
      ['--baseline', 'old.json', '--quiet', '--waived'],
    ])
      expect(merge(cwd, ...shares(cwd, 2, ...words))).toEqual(check(cwd, ...words));
  });

  it('hand their troubles on', () => {
    const cwd = folderOf({
      ...NOTES,
      'set/bad.md': Buffer.from([0x61, 0xff, 0x0a]),
      'set/worse.md': Buffer.from([0xfe, 0xff, 0, 0x23]),
    });
    const sorted = ({ stderr, ...rest }: Run) => ({ ...rest, told: stderr.split('\n').sort() });
    for (const words of [[], ['gone.md']]) {
      const plain = check(cwd, ...words);
      expect(plain.status).toBe(2);
      expect(sorted(merge(cwd, ...shares(cwd, 3, ...words)))).toEqual(sorted(plain));
    }
  });

  it('hand on that a configuration could not be read', () => {
    const cwd = folderOf({
      ...NOTES,
      'set/sub/a.md': RIGHT_NOTE,
      'set/sub/leastwise.config.json': '{"rules":3}',
    });
    const plain = check(cwd);
    expect(plain.status).toBe(2);
    expect(merge(cwd, ...shares(cwd, 2))).toEqual(plain);
  });
});

describe('a share in a report for people', () => {
  it('is named', () => {
    const run = leastwise(['check', 'set', '--shard', '2/3'], { cwd: folderOf(NOTES) });
    expect(run).toMatchObject({ status: 1, stdout: expect.stringMatching(/share 2 of 3/) });
  });
});

describe('a share that does not exist', () => {
  it.each([
    ['0/3', '--shard 0/3 names no share: those of 3 are 1/3 to 3/3'],
    ['4/3', '--shard 4/3 names no share: those of 3 are 1/3 to 3/3'],
    ['2/1', '--shard 2/1 names no share: the only one is 1/1'],
    ['1/0', '--shard 1/0 names no share: a bank is dealt out in 1 to 1000 shares'],
    ['a/b', '--shard a/b names no share: write which and of how many, as in 2/3, the second of three'],
    ['-1/3', '--shard -1/3 names no share: write which and of how many, as in 2/3, the second of three'],
    ['1.5/3', '--shard 1.5/3 names no share: write which and of how many, as in 2/3, the second of three'],
    ['3', '--shard 3 names no share: write which and of how many, as in 2/3, the second of three'],
  ])('such as %s is told', (typed, sentence) => {
    expect(leastwise(['check', 'set', `--shard=${typed}`], { cwd: folderOf(NOTES) })).toEqual(
      refused(sentence),
    );
  });
});

describe('what cannot be put together', () => {
  const dealt = (of = 3) => {
    const cwd = folderOf(NOTES);
    return { cwd, names: shares(cwd, of) };
  };

  it('misses a share', () => {
    const { cwd, names } = dealt();
    expect(merge(cwd, ...names.slice(1))).toEqual(refused('share 1/3 is missing'));
    expect(merge(cwd, ...names.slice(2))).toEqual(refused('shares 1/3 and 2/3 are missing'));
  });

  it('holds one twice', () => {
    const { cwd, names } = dealt();
    const [first = ''] = names;
    writeFileSync(join(cwd, 'again.json'), readFileSync(join(cwd, first)));
    expect(merge(cwd, ...names, 'again.json')).toEqual(
      refused('again.json is share 1/3, as share-1-of-3.json is: each may come but once'),
    );
  });

  it('is of other notes, or was looked at in another way', () => {
    const { cwd, names } = dealt();
    const foreign = refused(
      'other.json is not of the same bank as share-1-of-3.json: other notes, other settings or another version',
    );
    const others: readonly (() => string)[] = [
      () => check(cwd, '--shard', '3/3', '--waived').stdout,
      () => check(cwd, '--shard', '3/3', '--quiet').stdout,
      () =>
        leastwise(['check', 'set', 'set/a.md', 'share-1-of-3.json', '--format', 'json', '--shard', '3/3'], {
          cwd,
        }).stdout,
      () => {
        writeFileSync(join(cwd, 'leastwise.config.json'), '{"rules":{"wrong-value":"warning"}}');
        return check(cwd, '--shard', '3/3').stdout;
      },
    ];
    for (const other of others) {
      writeFileSync(join(cwd, 'other.json'), other());
      expect(merge(cwd, ...names.slice(0, 2), 'other.json')).toEqual(foreign);
    }
  });

  it('was dealt out in another number of shares', () => {
    const { cwd, names } = dealt();
    const [, second = ''] = shares(cwd, 2);
    expect(merge(cwd, ...names, second)).toEqual(
      refused(
        'share-2-of-2.json is a share of 2 and share-1-of-3.json one of 3, so they are not of one bank',
      ),
    );
  });

  it('is a whole report already', () => {
    const { cwd, names } = dealt(2);
    writeFileSync(join(cwd, 'plain.json'), check(cwd).stdout);
    expect(merge(cwd, 'plain.json', ...names)).toEqual(
      refused(
        'plain.json is the report of a whole bank and not of a share, so there is nothing to put together',
      ),
    );
  });

  it('is no report, or not there', () => {
    const { cwd, names } = dealt(2);
    writeFileSync(join(cwd, 'empty.json'), '');
    expect(merge(cwd, ...names, 'set/a.md', 'empty.json', 'gone.json', 'set')).toEqual(
      refused(
        [
          'set/a.md is not a JSON report of leastwise',
          'empty.json is not a JSON report of leastwise',
          'there is no file or folder gone.json',
          'set is not a file',
        ].join('\nleastwise: '),
      ),
    );
  });

  it('was cut off, wherever that was', () => {
    const { cwd, names } = dealt(2);
    const whole = readFileSync(join(cwd, names[1] ?? ''));
    for (let length = 0; length < whole.length; length += 211) {
      writeFileSync(join(cwd, 'short.json'), whole);
      truncateSync(join(cwd, 'short.json'), length);
      const run = merge(cwd, names[0] ?? '', 'short.json');
      expect(run).toMatchObject({ status: 2, stdout: '' });
      expect(run.stderr).toMatch(
        /^leastwise: short\.json (is not whole, for its end is missing: check that share again|is not a JSON report of leastwise)\n$/,
      );
    }
  });

  it('was changed by a sign, written anew by another program, or by another system', () => {
    const { cwd, names } = dealt(2);
    const text = readFileSync(join(cwd, names[1] ?? ''), 'utf8');
    const edits: Readonly<Record<string, string>> = {
      sign: text.replace('"mm"', '"cm"'),
      count: text.replace('"errors":1', '"errors":0'),
      part: text.replace('"index":2', '"index":1'),
      line: text.replace(/\n\{.*\},\n/, '\n'),
      seal: text.replace(/"seal":"./, '"seal":"g'),
      ends: text.replaceAll('\n', '\r\n'),
      indented: JSON.stringify(JSON.parse(text), null, 2),
      flat: JSON.stringify(JSON.parse(text)),
      empty: '{"version":1,"notes":[]}',
      endless: `{"version":1,"notes":[${'x'.repeat(200_000)}\n`,
    };
    for (const [name, edited] of Object.entries(edits)) {
      expect(edited).not.toBe(text);
      writeFileSync(join(cwd, `${name}.json`), edited);
      const run = merge(cwd, names[0] ?? '', `${name}.json`);
      expect({ name, ...run }).toMatchObject({ name, status: 2, stdout: '' });
      expect(run.stderr).toMatch(new RegExp(`^leastwise: ${name}\\.json (was changed|is not) [^\\n]*\\n$`));
    }
  });
});
