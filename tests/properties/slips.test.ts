import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { checkNote } from '../../server/src/checks/check.ts';
import { drawSeed } from '../support/seed.ts';
import { fencedBlock } from './generators/bench-note.ts';
import type { Draw } from './generators/draw.ts';
import { counted, linkOf, report } from './generators/judged-note.ts';
import { explanations, type SlipCase } from './generators/slip-case.ts';
import { type DerivedSlip, drawDerivedSlip } from './generators/slip-derived.ts';
import { drawScrewSlip, type ScrewSlip } from './generators/slip-screw.ts';
import { drawUnexplained, drawVernierSlip, type VernierSlip } from './generators/slip-vernier.ts';

// Source of every wrong value: the slip's own definition (common practice, no source), worked out with
// exact fractions of the tests' own on an instrument that was laid out physically.
drawSeed('slips');

const RUNS = 45;

/** One wrong link gives one finding, there, and it is explained by a slip that gives just that number. */
function requireExplained(draw: (draw: Draw) => SlipCase | null, numRuns = RUNS): void {
  fc.assert(
    fc.property(fc.gen(), choose => {
      const one = draw(choose);
      fc.pre(one !== null);
      const text = fencedBlock(one.lines, 'slip');
      const note = checkNote(text);
      const shown = `made: ${one.slip} at "${one.link}"${report(text, note, { right: one.right, stated: one.stated })}`;
      const findings = counted(note);
      expect(
        findings.map(finding => [finding.rule, linkOf(text, finding)]),
        shown,
      ).toEqual([['wrong-value', one.link]]);
      expect([...explanations(one)], shown).toContain(findings[0]?.slip);
    }),
    { numRuns },
  );
}

describe('a slip on a vernier is named', () => {
  const slips: readonly VernierSlip[] = [
    'zero-correction-left-out',
    'zero-correction-sign',
    'zero-correction-twice',
    'closed-division-as-read',
    'division-miscounted',
    'forward-rule',
    'division-over-n',
    'difference-not-least-count',
    'vernier-division-for-least-count',
    'mark-at-coincidence',
    'next-mark',
    'unit-slip',
    'power-of-ten',
    'digits-swapped',
    'sign-slip',
  ];
  test.each(slips)('%s', slip => requireExplained(draw => drawVernierSlip(draw, slip)));

  test('and none is named that does not give the number', () => requireExplained(drawUnexplained, 300));
});

describe('a slip on a screw is named', () => {
  const slips: readonly ScrewSlip[] = [
    'half-turn-missed',
    'circular-reading-times-pitch',
    'pitch-as-one-division',
    'division-miscounted',
    'closed-division-as-read',
    'zero-correction-left-out',
    'zero-correction-sign',
    'zero-correction-twice',
    'rotation-miscounted',
    'full-circle-missed',
    'rows-left-out',
    'signed-deviations',
  ];
  test.each(slips)('%s', slip => requireExplained(draw => drawScrewSlip(draw, slip)));
});

describe('a slip in what is worked out is named', () => {
  const slips: readonly DerivedSlip[] = [
    'radius-for-diameter',
    'power-left-out',
    'errors-subtracted',
    'rounded-twice',
    'cut-off',
    'digits-swapped',
    'sign-slip',
  ];
  test.each(slips)('%s', slip => requireExplained(draw => drawDerivedSlip(draw, slip)));
});
