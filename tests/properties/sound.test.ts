import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { checkNote } from '../../server/src/checks/check.ts';
import { drawSeed } from '../support/seed.ts';
import { fencedBlock } from './generators/bench-note.ts';
import { chance, type Draw, shuffled } from './generators/draw.ts';
import { fraction, over } from './generators/fraction.ts';
import { findingLines, report } from './generators/judged-note.ts';
import { drawWorkedList, drawWorkedSpherometer } from './generators/worked-bench.ts';
import { drawWorkedDerived, drawWorkedPowers } from './generators/worked-derived.ts';
import { drawWorkedLetters, drawWorkedQuestion, proseClaim } from './generators/worked-question.ts';
import { drawWorkedScrew } from './generators/worked-screw.ts';
import { drawWorkedVernier, type WorkedBlock } from './generators/worked-vernier.ts';

// Source of every claimed value: the bench of generators/physical-*.ts and exact fractions of the tests' own.
drawSeed('sound');

/** A note that is right everywhere is not found fault with, whatever its spelling. */
function requireSilence(draw: (draw: Draw) => string, numRuns: number): void {
  fc.assert(
    fc.property(fc.gen(), choose => {
      const text = draw(choose);
      const note = checkNote(text);
      expect(findingLines(text, note), report(text, note)).toEqual([]);
    }),
    { numRuns },
  );
}

function blockText(block: WorkedBlock): string {
  return fencedBlock(block.lines, block.name);
}

describe('what is right is not found fault with', () => {
  test('a vernier with its zero', () =>
    requireSilence(draw => blockText(drawWorkedVernier(draw, 'axle')), 300));

  test('a screw with repeated readings', () =>
    requireSilence(draw => blockText(drawWorkedScrew(draw, 'ball')), 250));

  test('a spherometer', () => requireSilence(draw => drawWorkedSpherometer(draw, 'dish').join('\n'), 100));

  test('repeated times', () => requireSilence(draw => drawWorkedList(draw, 'pendulum').join('\n'), 100));

  test('errors of a product of powers', () =>
    requireSilence(draw => drawWorkedPowers(draw, 'spring').join('\n'), 100));

  test('a vernier in letters', () =>
    requireSilence(draw => drawWorkedLetters(draw, 'letters').join('\n'), 60));

  test('a question with its key', () =>
    requireSilence(draw => {
      const vernier = drawWorkedVernier(draw, 'axle');
      const question = drawWorkedQuestion(draw, 'q7', vernier, vernier.setting);
      return shuffled(draw, [blockText(vernier), question.join('\n')]).join('\n\n');
    }, 120));

  test('quantities worked out from readings, in the block and in the prose', () =>
    requireSilence(draw => {
      const screw = drawWorkedScrew(draw, 'bearing-ball');
      const half = chance(draw);
      const error = half ? over(screw.leastCount, fraction(2)) : screw.leastCount;
      const ruled = half ? { ...screw, lines: ['error rule: half the least count', ...screw.lines] } : screw;
      const derived = drawWorkedDerived(draw, 'ball-density', screw, screw.setting.measure, error);
      return shuffled(draw, [blockText(ruled), derived.join('\n'), proseClaim(screw)]).join('\n\n');
    }, 250));
});
