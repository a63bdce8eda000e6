import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type BenchNote, fencedBlock } from '../properties/generators/bench-note.ts';
import {
  drawCountedRotations,
  drawDialNote,
  drawThreeScales,
  drawTurnedDisc,
} from '../properties/generators/disc-note.ts';
import type { Draw } from '../properties/generators/draw.ts';
import { drawScrewNote } from '../properties/generators/screw-note.ts';
import {
  drawLeastCountNote,
  drawNeighboursNote,
  drawSharedNote,
  drawVernierNote,
} from '../properties/generators/vernier-note.ts';
import type { VernierFamily } from '../properties/generators/vernier-shape.ts';
import { drawWorkedScrew } from '../properties/generators/worked-screw.ts';
import { drawWorkedVernier } from '../properties/generators/worked-vernier.ts';
import { drawSeed } from '../support/seed.ts';
import { expectSound } from './sound-workings.ts';

// The check itself is the measure: what it finds nothing wrong with was laid out mark by mark in tests/properties.
drawSeed('workings of scales');

const ROOT = join(import.meta.dirname, '../..');

describe.each(['examples', 'tests/published', 'tests/natural-typing', 'tests/rules', 'tests/slips'])(
  'every block of the notes in %s',
  folder => {
    const notes = readdirSync(join(ROOT, folder)).filter(name => name.endsWith('.md'));
    test('there are some', () => expect(notes.length).toBeGreaterThan(0));
    test.each(notes)('%s', name => expectSound(readFileSync(join(ROOT, folder, name), 'utf8')));
  },
);

function requireSound(draw: (draw: Draw) => BenchNote, numRuns: number): void {
  fc.assert(
    fc.property(fc.gen(), choose => expectSound(draw(choose).text)),
    { numRuns },
  );
}

describe('random blocks', () => {
  const families: readonly VernierFamily[] = [
    'direct',
    'direct-backward',
    'retrograde-forward',
    'retrograde-backward',
    'extended',
    'odd',
    'common-divisor',
  ];
  test.each(families)('a vernier, %s', family => requireSound(draw => drawVernierNote(draw, family), 60));
  test.each(['direct', 'retrograde-forward', 'retrograde-backward', 'extended'] as const)(
    'two lines share the coincidence, %s',
    family => requireSound(draw => drawSharedNote(draw, family), 40),
  );
  test.each(['direct', 'retrograde-forward', 'extended', 'odd'] as const)(
    'between two neighbouring marks, %s',
    family => requireSound(draw => drawNeighboursNote(draw, family), 40),
  );
  test('only the least count is given', () => requireSound(drawLeastCountNote, 40));
  test.each([
    [1, 1],
    [1, 2],
    [1, 4],
    [2, 3],
    [3, 2],
  ])('a screw, %i rotations pass %i linear divisions', (turns, linear) =>
    requireSound(draw => drawScrewNote(draw, turns, linear), 60),
  );
  test('a vernier that is worked through already', () =>
    requireSound(
      draw => ({ text: fencedBlock(drawWorkedVernier(draw, 'bench').lines, 'bench'), expected: {} }),
      60,
    ));
  test('a screw that is worked through already', () =>
    requireSound(
      draw => ({ text: fencedBlock(drawWorkedScrew(draw, 'bench').lines, 'bench'), expected: {} }),
      60,
    ));
  test('three scales', () => requireSound(drawThreeScales, 60));
  test('a disc before and after', () => requireSound(drawTurnedDisc, 60));
  test('counted rotations', () => requireSound(drawCountedRotations, 40));
  test('a dial with two hands', () => requireSound(drawDialNote, 40));
});
