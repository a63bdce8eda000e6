import { mkdirSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import { keptText } from '../../server/src/cli/reporters/kept-text.ts';
import { folderOf } from '../support/command.ts';

/** Runs with a folder for temporary files of its own, which is given. */
function ownTemporaryFolder(): string {
  const folder = join(folderOf({}), 'temporary');
  mkdirSync(folder);
  const before = process.env.TMPDIR;
  process.env.TMPDIR = folder;
  onTestFinished(() => {
    if (before === undefined) delete process.env.TMPDIR;
    else process.env.TMPDIR = before;
  });
  return folder;
}

it('gives a little text back as it was kept, without a file', () => {
  const folder = ownTemporaryFolder();
  const kept = keptText();
  for (const text of ['one, ', 'two, ', 'π ☂']) kept.keep(text);
  expect(readdirSync(folder)).toEqual([]);
  expect([...kept.pour()].join('')).toBe('one, two, π ☂');
  kept.drop();
});

it('gives much text back as it was kept, sign by sign, and leaves no file', () => {
  const folder = ownTemporaryFolder();
  const kept = keptText();
  // Signs of one to four bytes, so that the pieces in which a file is read end within one.
  const lines = Array.from({ length: 60_000 }, (_, at) => `${at} é ☂ 👨 ${'x'.repeat(at % 7)}\n`);
  for (const line of lines) kept.keep(line);
  expect([...kept.pour()].join('')).toBe(lines.join(''));
  kept.drop();
  expect(readdirSync(folder)).toEqual([]);
});

it('lets go of what nobody wants any more', () => {
  const folder = ownTemporaryFolder();
  const kept = keptText();
  kept.keep('x'.repeat(1_000_000));
  kept.drop();
  expect(readdirSync(folder)).toEqual([]);
});

it('throws what the system says where there is no folder for it', () => {
  const folder = ownTemporaryFolder();
  process.env.TMPDIR = join(folder, 'gone');
  const kept = keptText();
  expect(() => kept.keep('x'.repeat(1_000_000))).toThrow(/ENOENT/);
});
