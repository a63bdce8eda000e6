import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { withEdits } from '../../../server/src/actions/settled-edits.ts';
import { unifiedDiff } from '../../../server/src/cli/mending/unified-diff.ts';
import type { Edit } from '../../../server/src/language/problem.ts';
import { folderOf } from '../../support/command.ts';
import { drawSeed } from '../../support/seed.ts';

const seed = drawSeed('unified-diff');

interface Case {
  readonly text: string;
  readonly edits: readonly Edit[];
}

const line = fc.oneof(
  fc.constantFrom('', 'same', '-- a', '++ b', '@@ -1 +1 @@', '\\ No newline', 'α ₂', '\ufeffdrum', 'a\rb'),
  fc.string({ maxLength: 6 }).map(text => text.replace(/[\n\0]/g, '.')),
);
const noteText = fc
  .tuple(fc.array(fc.tuple(line, fc.constantFrom('\n', '\n', '\r\n')), { maxLength: 40 }), line)
  .map(([lines, last]) => lines.map(parts => parts.join('')).join('') + last)
  .filter(text => text !== '');

/** A note with edits that do not meet, as a mending of it gives them. */
const cases: fc.Arbitrary<Case> = noteText.chain(text =>
  fc
    .array(
      fc.tuple(fc.nat(text.length), fc.nat(12), fc.constantFrom('', 'x', '\n', 'new\n', '\r\n', 'y\nz')),
      {
        maxLength: 6,
      },
    )
    .map(drawn => {
      const edits: Edit[] = [];
      let from = 0;
      for (const [at, length, newText] of drawn.sort((a, b) => a[0] - b[0])) {
        if (at < from) continue;
        const end = Math.min(text.length, at + length);
        edits.push({ span: { start: at, end }, newText });
        from = end + 1;
      }
      return { text, edits };
    }),
);

const PROGRAMS: readonly (readonly [string, readonly string[]])[] = [
  ['patch', ['-p0', '--no-backup-if-mismatch', '-i', 'mend.diff']],
  ['git', ['apply', '-p0', '--whitespace=nowarn', 'mend.diff']],
];

function applied(folder: string, [program, words]: (typeof PROGRAMS)[number], diff: string) {
  writeFileSync(join(folder, 'mend.diff'), diff);
  const run = spawnSync(program, words, { cwd: folder, encoding: 'utf8' });
  return { status: run.status, said: `${run.stdout}${run.stderr}` };
}

describe.each(PROGRAMS)('%s makes of the note, by the diff alone,', (...program) => {
  it('the very bytes that the edits make, whatever its lines end in', () => {
    const drawn = fc
      .sample(cases, { numRuns: 300, seed })
      // A note of which nothing is left is no file any more for these programs.
      .filter(({ text, edits }) => withEdits(text, edits) !== '');
    const folder = folderOf(
      Object.fromEntries(drawn.map(({ text }, at) => [`set/q${at}.md`, Buffer.from(text)])),
    );
    const diff = drawn.map(({ text, edits }, at) => unifiedDiff(`set/q${at}.md`, text, edits)).join('');
    expect(diff.split('\n--- ').length).toBeGreaterThan(200);
    expect(applied(folder, program, diff)).toMatchObject({ status: 0 });
    for (const [at, { text, edits }] of drawn.entries())
      expect(readFileSync(join(folder, `set/q${at}.md`)).toString(), `q${at}`).toBe(withEdits(text, edits));
  });

  it.each(['q 7.md', 'Übung 1.md', 'say "when".md', 'back\\slash.md', '\u202Edm.q.md'])(
    'in a file %j',
    name => {
      const folder = folderOf({ [name]: 'a\n' });
      const diff = unifiedDiff(name, 'a\n', [{ span: { start: 0, end: 1 }, newText: 'b' }]);
      expect(applied(folder, program, diff)).toMatchObject({ status: 0 });
      expect(readFileSync(join(folder, name), 'utf8')).toBe('b\n');
    },
  );
});

it('shows three lines around, and nothing where nothing changes', () => {
  const text = Array.from({ length: 20 }, (_, at) => `line ${at + 1}\n`).join('');
  const at = text.indexOf('line 10');
  expect(unifiedDiff('q.md', text, [{ span: { start: at, end: at + 4 }, newText: 'LINE' }])).toBe(
    [
      ...['--- q.md', '+++ q.md', '@@ -7,7 +7,7 @@', ' line 7', ' line 8', ' line 9'],
      ...['-line 10', '+LINE 10', ' line 11', ' line 12', ' line 13', ''],
    ].join('\n'),
  );
  expect(unifiedDiff('q.md', text, [])).toBe('');
  expect(unifiedDiff('q.md', text, [{ span: { start: 0, end: 4 }, newText: 'line' }])).toBe('');
});

it('quotes a name that a terminal would obey', () => {
  const diff = unifiedDiff('a\u001b[2J.md', 'a\n', [{ span: { start: 0, end: 1 }, newText: 'b' }]);
  expect(diff.split('\n')[0]).toBe('--- "a\\033[2J.md"');
});
