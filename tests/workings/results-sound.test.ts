import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readNote } from '../../server/src/language/fences.ts';
import type { Subject } from '../../server/src/language/measurement.ts';
import { fencedBlock } from '../properties/generators/bench-note.ts';
import type { Draw } from '../properties/generators/draw.ts';
import { drawWorkedList, drawWorkedSpherometer } from '../properties/generators/worked-bench.ts';
import { drawWorkedDerived, drawWorkedPowers } from '../properties/generators/worked-derived.ts';
import { drawWorkedLetters } from '../properties/generators/worked-question.ts';
import { drawWorkedScrew } from '../properties/generators/worked-screw.ts';
import { drawSeed } from '../support/seed.ts';
import { expectSilentLines, expectTrueLinks, workedIn } from './worked-note.ts';

drawSeed('workings/results-sound');

const TERMS = new Set([
  'mean observed reading',
  'mean corrected reading',
  'mean absolute error',
  'standard deviation',
]);

function isResult(subject: Subject): boolean {
  return (
    subject.kind === 'own' ||
    subject.kind === 'statistic' ||
    (subject.kind === 'term' && TERMS.has(subject.term))
  );
}

/** A long note of blocks that do not speak of each other is looked at block by block. */
function notesOf(text: string): readonly string[] {
  if (text.length < LONG) return [text];
  return readNote(text).fences.map(({ span }) => text.slice(span.start, span.end));
}

const LONG = 20_000;

const root = new URL('../../', import.meta.url);
const notes = [
  'examples',
  'examples/careless',
  'tests/published',
  'tests/natural-typing',
  'tests/rules',
].flatMap(folder =>
  readdirSync(new URL(`${folder}/`, root))
    .filter(name => name.endsWith('.md') && name !== 'README.md')
    .map(name => `${folder}/${name}`),
);

describe('means, results and errors, worked out in every note', () => {
  it.each(notes)('%s: its lines pass the check, and every link is worth what it should be', path => {
    for (const note of notesOf(readFileSync(new URL(path, root), 'utf8'))) {
      for (const worked of workedIn(note, isResult)) {
        expectSilentLines(worked);
        expectTrueLinks(worked);
      }
    }
  });
});

describe('means, results and errors of random blocks', () => {
  const requireSound = (draw: (draw: Draw) => string, numRuns: number): void => {
    let count = 0;
    fc.assert(
      fc.property(fc.gen(), choose => {
        for (const worked of workedIn(draw(choose), isResult)) {
          expectSilentLines(worked);
          expectTrueLinks(worked);
          count += 1;
        }
      }),
      { numRuns },
    );
    expect(count).toBeGreaterThan(0);
  };

  it('means of a screw’s readings', () =>
    requireSound(draw => {
      const screw = drawWorkedScrew(draw, 'ball');
      return fencedBlock(screw.lines, screw.name);
    }, 60));

  it('a spherometer’s heights', () =>
    requireSound(draw => drawWorkedSpherometer(draw, 'dish').join('\n'), 40));

  it('repeated times', () => requireSound(draw => drawWorkedList(draw, 'pendulum').join('\n'), 40));

  it('errors of a product of powers', () =>
    requireSound(draw => drawWorkedPowers(draw, 'spring').join('\n'), 40));

  it('letters', () => {
    fc.assert(
      fc.property(fc.gen(), choose => {
        for (const worked of workedIn(drawWorkedLetters(choose, 'letters').join('\n'), isResult))
          expectSilentLines(worked);
      }),
      { numRuns: 20 },
    );
  });

  it('what is worked out from readings of another block', () =>
    requireSound(draw => {
      const screw = drawWorkedScrew(draw, 'bearing-ball');
      const derived = drawWorkedDerived(draw, 'density', screw, screw.setting.measure, screw.leastCount);
      return [fencedBlock(screw.lines, screw.name), derived.join('\n')].join('\n\n');
    }, 60));
});
