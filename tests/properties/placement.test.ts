import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { checkNote } from '../../server/src/checks/check.ts';
import { drawSeed } from '../support/seed.ts';
import type { BenchNote } from './generators/bench-note.ts';
import {
  drawCountedRotations,
  drawDialNote,
  drawThreeScales,
  drawTurnedDisc,
} from './generators/disc-note.ts';
import type { Draw } from './generators/draw.ts';
import { drawImpossibleScrew, drawImpossibleVernier } from './generators/impossible-note.ts';
import { counted, findingLines, listedValue, report } from './generators/judged-note.ts';
import { agrees } from './generators/measure.ts';
import { drawScrewNote } from './generators/screw-note.ts';
import {
  drawLeastCountNote,
  drawNeighboursNote,
  drawSharedNote,
  drawVernierNote,
} from './generators/vernier-note.ts';
import type { VernierFamily } from './generators/vernier-shape.ts';

// Source of every expected value: the instrument itself, its marks and lines laid one by one (generators/physical-*.ts).
drawSeed('placement');

/** Every value that was laid out is listed exactly, and nothing in the block is found fault with. */
function requirePlaced(draw: (draw: Draw) => BenchNote, numRuns: number): void {
  fc.assert(
    fc.property(fc.gen(), choose => {
      const { text, expected } = draw(choose);
      const note = checkNote(text);
      for (const [term, value] of Object.entries(expected)) {
        expect(agrees(listedValue(note, term), value), `${term}${report(text, note, expected)}`).toBe(true);
      }
      expect(findingLines(text, note), report(text, note, expected)).toEqual([]);
    }),
    { numRuns },
  );
}

/** The block is found fault with by this rule, and no reading is made up. */
function requireRefused(draw: (draw: Draw) => string, rule: string, numRuns: number): void {
  fc.assert(
    fc.property(fc.gen(), choose => {
      const text = draw(choose);
      const note = checkNote(text);
      const rules = new Set(counted(note).map(finding => finding.rule));
      expect([...rules], report(text, note)).toEqual([rule]);
      expect(listedValue(note, 'observed reading'), report(text, note)).toBeNull();
    }),
    { numRuns },
  );
}

describe('a vernier shows where its zero was laid', () => {
  const families: readonly (readonly [VernierFamily, number])[] = [
    ['direct', 180],
    ['direct-backward', 90],
    ['retrograde-forward', 150],
    ['retrograde-backward', 150],
    ['extended', 150],
    ['odd', 150],
    ['common-divisor', 90],
  ];
  test.each(families)('%s', (family, numRuns) =>
    requirePlaced(draw => drawVernierNote(draw, family), numRuns),
  );

  const adjacent: readonly VernierFamily[] = [
    'direct',
    'retrograde-forward',
    'retrograde-backward',
    'extended',
  ];
  test.each(adjacent)('two lines share the coincidence, %s', family =>
    requirePlaced(draw => drawSharedNote(draw, family), 120),
  );

  const ratios: readonly VernierFamily[] = ['direct', 'retrograde-forward', 'extended', 'odd'];
  test.each(ratios)('the zero stands between two neighbouring marks, %s', family =>
    requirePlaced(draw => drawNeighboursNote(draw, family), 80),
  );

  test('only its least count is given', () => requirePlaced(drawLeastCountNote, 120));
});

describe('a screw shows how far it was turned', () => {
  test.each([
    [1, 1, 200],
    [1, 2, 160],
    [1, 4, 80],
    [2, 3, 120],
  ])('%i rotations pass %i linear divisions', (turns, linear, numRuns) =>
    requirePlaced(draw => drawScrewNote(draw, turns, linear), numRuns),
  );

  test.each([
    [2, 1],
    [3, 1],
    [4, 2],
  ])('more than one place fits where %i rotations pass %i linear divisions', (turns, linear) =>
    requireRefused(draw => drawScrewNote(draw, turns, linear).text, 'ambiguous-reading', 100),
  );

  test('some places are told apart where three rotations pass two linear divisions', () => {
    fc.assert(
      fc.property(fc.gen(), draw => {
        const { text, expected, ambiguous } = drawScrewNote(draw, 3, 2);
        const note = checkNote(text);
        const rules = counted(note).map(finding => finding.rule);
        expect(rules.includes('ambiguous-reading'), report(text, note, expected)).toBe(ambiguous);
        const reading = expected['observed reading'];
        const listed = listedValue(note, 'observed reading');
        expect(reading ? agrees(listed, reading) : listed === null, report(text, note, expected)).toBe(true);
      }),
      { numRuns: 120 },
    );
  });

  test('a vernier reads the drum', () => requirePlaced(drawThreeScales, 160));
  test('a disc is read, turned and read again', () => requirePlaced(drawTurnedDisc, 160));
  test('whole rotations are counted', () => requirePlaced(drawCountedRotations, 100));
  test('a small hand counts the turns of a large one', () => requirePlaced(drawDialNote, 120));
});

describe('what no instrument can show is refused', () => {
  test('a vernier', () => requireRefused(drawImpossibleVernier, 'impossible-reading', 150));
  test('a screw', () => requireRefused(drawImpossibleScrew, 'impossible-reading', 150));
});
