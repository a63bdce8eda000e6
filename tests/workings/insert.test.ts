import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { insertLinesEdits } from '../../server/src/workings/insert-lines.ts';
import { insertWorkingEdits } from '../../server/src/workings/insert-working.ts';
import { fencedBlock } from '../properties/generators/bench-note.ts';
import { damaged } from '../properties/generators/damage.ts';
import type { Draw } from '../properties/generators/draw.ts';
import { drawWorkedList, drawWorkedSpherometer } from '../properties/generators/worked-bench.ts';
import { drawWorkedPowers } from '../properties/generators/worked-derived.ts';
import { drawWorkedLetters, drawWorkedQuestion } from '../properties/generators/worked-question.ts';
import { drawWorkedScrew } from '../properties/generators/worked-screw.ts';
import { drawWorkedVernier } from '../properties/generators/worked-vernier.ts';
import { drawSeed } from '../support/seed.ts';
import { expectSilent, faults, inserted, newFaults } from './inserted-note.ts';

drawSeed('workings/insert');

const root = new URL('../../', import.meta.url);
const notes = [
  'examples/',
  'examples/careless/',
  'tests/published/',
  'tests/natural-typing/',
  'tests/rules/',
].flatMap(folder =>
  readdirSync(new URL(folder, root))
    .filter(name => name.endsWith('.md') && name !== 'README.md')
    .map(name => `${folder}${name}`),
);

describe('what is inserted is not found fault with, is not inserted twice, and changes no fact', () => {
  it.each(notes)('%s', path => {
    expectSilent(readFileSync(new URL(path, root), 'utf8'));
  });

  it.each<[string, (draw: Draw) => string]>([
    [
      'a vernier with its zero',
      draw => {
        const block = drawWorkedVernier(draw, 'axle');
        return fencedBlock(block.lines, block.name);
      },
    ],
    [
      'a screw with repeated readings',
      draw => {
        const block = drawWorkedScrew(draw, 'ball');
        return fencedBlock(block.lines, block.name);
      },
    ],
    ['a spherometer', draw => drawWorkedSpherometer(draw, 'dish').join('\n')],
    ['repeated times', draw => drawWorkedList(draw, 'pendulum').join('\n')],
    ['errors of a product of powers', draw => drawWorkedPowers(draw, 'spring').join('\n')],
    ['a vernier in letters', draw => drawWorkedLetters(draw, 'letters').join('\n')],
    [
      'a question with its key',
      draw => {
        const vernier = drawWorkedVernier(draw, 'axle');
        const question = drawWorkedQuestion(draw, 'q7', vernier, vernier.setting);
        return [fencedBlock(vernier.lines, vernier.name), question.join('\n')].join('\n\n');
      },
    ],
  ])('%s', (_, draw) => {
    fc.assert(
      fc.property(fc.gen(), choose => expectSilent(draw(choose))),
      { numRuns: 40 },
    );
  });
});

it('nothing is inserted that a damaged note cannot hold, and nothing fails on one', () => {
  fc.assert(
    fc.property(fc.gen(), choose => {
      const block = drawWorkedVernier(choose, 'axle');
      const text = damaged(choose, fencedBlock(block.lines, block.name));
      const once = inserted(text, insertLinesEdits);
      expect(newFaults(faults(text), once), once).toEqual([]);
      expect(inserted(text, insertWorkingEdits)).toContain(text.trimEnd().slice(0, 40));
    }),
    { numRuns: 40 },
  );
});

it('there are notes to insert into', () => {
  expect(notes.length).toBeGreaterThan(80);
});
