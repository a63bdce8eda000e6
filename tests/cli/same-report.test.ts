import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { damaged } from '../properties/generators/damage.ts';
import { drawTurnedDisc } from '../properties/generators/disc-note.ts';
import { pick, whole } from '../properties/generators/draw.ts';
import { UNREADABLE } from '../properties/generators/hostile-note.ts';
import { drawImpossibleVernier } from '../properties/generators/impossible-note.ts';
import { drawScrewNote } from '../properties/generators/screw-note.ts';
import { drawVernierNote } from '../properties/generators/vernier-note.ts';
import { folderOf, leastwise, type Run } from '../support/command.ts';
import { PROJECT_ROOT } from '../support/project-files.ts';
import { drawSeed } from '../support/seed.ts';
import { RIGHT_NOTE } from '../support/workshop-notes.ts';

const seed = drawSeed('same-report');

/** The notes of a folder of the project, by their names. */
function notesIn(folder: string): Readonly<Record<string, string>> {
  return Object.fromEntries(
    readdirSync(join(PROJECT_ROOT, folder))
      .filter(name => name.endsWith('.md'))
      .map(name => [`${folder}/${name}`, readFileSync(join(PROJECT_ROOT, folder, name), 'utf8')]),
  );
}

/** Notes of every kind that a bank holds: right, careless, hurried, generated, damaged, and such as nobody can read. */
function bank(): Readonly<Record<string, string>> {
  const generated = fc.sample(
    fc
      .gen()
      .map(draw => [
        drawVernierNote(draw, pick(draw, ['direct', 'retrograde-forward', 'extended', 'odd'])).text,
        drawScrewNote(draw, whole(draw, 1, 4), pick(draw, [1, 2])).text,
        drawTurnedDisc(draw).text,
        drawImpossibleVernier(draw),
        damaged(draw, RIGHT_NOTE),
      ]),
    { seed, numRuns: 12 },
  );
  return {
    ...notesIn('examples'),
    ...notesIn('examples/careless'),
    ...notesIn('tests/natural-typing'),
    ...notesIn('tests/slips'),
    ...Object.fromEntries(generated.flat().map((text, at) => [`generated/${at % 7}/n${at}.md`, text])),
    ...Object.fromEntries(Object.values(UNREADABLE).map((text, at) => [`unreadable/n${at}.md`, text])),
    'students/leastwise.config.json': '{"student":true}',
    ...Object.fromEntries(
      Object.entries(notesIn('examples/careless')).map(([path, text]) => [`students/${path}`, text]),
    ),
  };
}

describe.each([{ words: [] }, { words: ['--waived'] }])('the JSON document, with $words', ({ words }) => {
  it('is the same, byte for byte, however the work is dealt out', () => {
    const cwd = folderOf(bank());
    const run = (...more: readonly string[]): Run =>
      leastwise(['check', '.', '--format', 'json', ...words, ...more], { cwd });
    const plain = run('--jobs', '1');
    expect(plain).toMatchObject({ status: 1, stderr: '' });
    expect(JSON.parse(plain.stdout).notes.length).toBeGreaterThan(120);
    expect(run('--jobs', '2'), 'in parallel').toEqual(plain);
    expect(run('--cache', '--jobs', '2'), 'with a new cache').toEqual(plain);
    expect(run('--cache', '--jobs', '1'), 'from the cache').toEqual(plain);
    expect(run('--cache', '--jobs', '3'), 'from the cache in parallel').toEqual(plain);
    const ways = [['--cache'], ['--jobs', '2'], []];
    const names = ways.map((way, at) => {
      const name = join(cwd, `share-${at + 1}.json`);
      writeFileSync(name, run('--shard', `${at + 1}/${ways.length}`, ...way).stdout);
      return name;
    });
    expect(leastwise(['merge', ...names]), 'put together').toEqual(plain);
  });
});
