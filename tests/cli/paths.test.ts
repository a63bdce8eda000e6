import { describe, expect, it } from 'vitest';
import { folderOf, leastwise } from '../support/command.ts';
import { RIGHT_NOTE } from '../support/workshop-notes.ts';

/** The paths of the notes that arguments lead to, in the order of the report. */
function pathsOf(cwd: string, ...words: readonly string[]): readonly string[] {
  const run = leastwise(['check', '--format', 'json', ...words], { cwd });
  expect(run).toMatchObject({ status: 0, stderr: '' });
  return JSON.parse(run.stdout).notes.map((note: { path: string }) => note.path);
}

const bank = () =>
  folderOf({
    'Set (1)/q1.md': RIGHT_NOTE,
    'Set (1)/q2.markdown': RIGHT_NOTE,
    'Set (1)/figure.png': Buffer.from([0x89, 0x50, 0xff]),
    'set-2/deep/q3.MD': RIGHT_NOTE,
    'set-2/words.txt': RIGHT_NOTE,
    'q[4].md': RIGHT_NOTE,
    'q4.md': RIGHT_NOTE,
    'node_modules/thing/readme.md': RIGHT_NOTE,
    '.drafts/q5.md': RIGHT_NOTE,
  });

describe('paths', () => {
  it('that exist are taken literally, whatever signs they hold', () => {
    expect(pathsOf(bank(), 'q[4].md')).toEqual(['q[4].md']);
    expect(pathsOf(bank(), 'Set (1)/q1.md')).toEqual(['Set (1)/q1.md']);
  });

  it('to folders mean the notes in them, in the order of their names', () => {
    expect(pathsOf(bank(), '.')).toEqual([
      'Set (1)/q1.md',
      'Set (1)/q2.markdown',
      'q4.md',
      'q[4].md',
      'set-2/deep/q3.MD',
    ]);
    expect(pathsOf(bank(), 'Set (1)')).toEqual(['Set (1)/q1.md', 'Set (1)/q2.markdown']);
    expect(pathsOf(bank(), 'set-2/')).toEqual(['set-2/deep/q3.MD']);
  });

  it('are shown as they were given', () => {
    expect(pathsOf(bank(), './q4.md', './Set (1)')).toEqual([
      './q4.md',
      './Set (1)/q1.md',
      './Set (1)/q2.markdown',
    ]);
  });

  it('name what node_modules or a dot folder holds when they lead there', () => {
    expect(pathsOf(bank(), 'node_modules')).toEqual(['node_modules/thing/readme.md']);
    expect(pathsOf(bank(), '.drafts')).toEqual(['.drafts/q5.md']);
  });

  it('to other files are notes too', () => {
    expect(pathsOf(bank(), 'set-2/words.txt')).toEqual(['set-2/words.txt']);
  });

  it('to a bank of many notes mean all of them', () => {
    const names = Array.from({ length: 120 }, (_, at) => `set/q${String(at).padStart(3, '0')}.md`);
    expect(pathsOf(folderOf(Object.fromEntries(names.map(name => [name, RIGHT_NOTE]))), 'set')).toEqual(
      names,
    );
  });

  it('that come twice are checked once', () => {
    expect(pathsOf(bank(), 'q4.md', './q4.md', 'q4*', '.').filter(path => path.includes('q4'))).toHaveLength(
      1,
    );
  });
});

describe('patterns', () => {
  it('match files', () => {
    expect(pathsOf(bank(), 'q*.md')).toEqual(['q4.md', 'q[4].md']);
    expect(pathsOf(bank(), '**/q?.m*')).toEqual(['Set (1)/q1.md', 'Set (1)/q2.markdown', 'q4.md']);
    expect(pathsOf(bank(), '{q4,gone}.md')).toEqual(['q4.md']);
  });

  it('mean notes where they do not say how a file ends', () => {
    expect(pathsOf(bank(), 'Set*/*')).toEqual(['Set (1)/q1.md', 'Set (1)/q2.markdown']);
    expect(pathsOf(bank(), 'set-2/*.txt')).toEqual(['set-2/words.txt']);
  });

  it('match folders, which stand for the notes in them', () => {
    expect(pathsOf(bank(), 's*')).toEqual(['set-2/deep/q3.MD']);
  });

  it('leave node_modules and dot folders out', () => {
    expect(pathsOf(bank(), '**/*.md')).toEqual(['Set (1)/q1.md', 'q4.md', 'q[4].md']);
  });
});

describe('standard input', () => {
  it('is a note for a dash, and where nothing is named', () => {
    for (const words of [['-'], []]) {
      const run = leastwise(['check', '--format', 'json', ...words], { input: RIGHT_NOTE });
      expect(JSON.parse(run.stdout)).toMatchObject({ notes: [{ path: '-' }], summary: { blocks: 1 } });
    }
  });

  it('has the name that is given', () => {
    const run = leastwise(['check', '-', '--stdin-filename', 'set/q1.md', '--format', 'json'], {
      input: RIGHT_NOTE,
    });
    expect(JSON.parse(run.stdout).notes[0].path).toBe('set/q1.md');
  });

  it('can stand beside files', () => {
    const run = leastwise(['check', '--format', 'json', 'q4.md', '-'], { cwd: bank(), input: RIGHT_NOTE });
    expect(JSON.parse(run.stdout).summary.notes).toBe(2);
  });

  it('must be UTF-8 too', () => {
    const run = leastwise(['check', '-'], { input: Buffer.from([0xfe, 0xff, 0, 0x23]) });
    expect(run).toMatchObject({
      status: 2,
      stderr:
        'leastwise: the note on standard input is written in UTF-16 (big-endian), which is not read here: save it as UTF-8\n',
    });
  });
});
