import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { examineNote } from '../../server/src/checks/examine.ts';
import type { Subject } from '../../server/src/language/measurement.ts';
import type { StatisticTerm } from '../../server/src/language/term-names.ts';
import { claimLine } from '../../server/src/render/derivation-lines.ts';
import { deriveQuestion } from '../../server/src/workings/derive-question.ts';
import { workingOf } from '../../server/src/workings/working.ts';
import { damaged } from '../properties/generators/damage.ts';
import { HOSTILE } from '../properties/generators/hostile-note.ts';
import { drawSeed } from '../support/seed.ts';

// What must hold of any text at all: a working is made, or none is, but nothing is thrown.
drawSeed('workings/results-hostile');

const BLOCKS = 6;
const CLAIMS = 30;
const STATISTICS: readonly StatisticTerm[] = [
  'mean',
  'standard deviation',
  'percentage error',
  'absolute error',
  'expanded uncertainty',
];

function requireSafe(text: string): void {
  const note = examineNote(text);
  for (let block = 0; note !== null && block < Math.min(note.fences, BLOCKS); block++) {
    const facts = note.facts.block(block);
    const claimed = facts.measurement.claims.slice(0, CLAIMS).map(claim => claim.subject);
    const recorded = [...facts.measurement.own.keys()]
      .slice(0, CLAIMS)
      .map((name): Subject => ({ kind: 'own', name, row: null, block: null }));
    const worked = [...claimed, ...recorded];
    const errors = [...claimed.slice(0, 4), ...recorded.slice(0, 4)].flatMap(of =>
      STATISTICS.map((statistic): Subject => ({ kind: 'statistic', statistic, of, from: null })),
    );
    for (const subject of [...worked, ...errors]) {
      const working = workingOf(note, block, subject);
      for (const step of working?.derivation.steps ?? []) expect(() => claimLine(step)).not.toThrow();
    }
    expect(() => deriveQuestion({ note, facts, way: null })).not.toThrow();
  }
}

describe.each(Object.entries(HOSTILE))('%s', (_, notes) => {
  test.each(Object.entries(notes))('%s', (_, text) => requireSafe(text));
});

test('damaged notes', () => {
  const texts = ['03-micrometers', '04-spherometer', '08-pendulum', '09-questions'].map(name =>
    readFileSync(new URL(`../../examples/${name}.md`, import.meta.url), 'utf8'),
  );
  fc.assert(
    fc.property(fc.gen(), fc.constantFrom(...texts), (draw, text) => {
      const blocks = text.split(/(?=^```measurement)/m);
      const at = draw(fc.nat, { max: blocks.length - 1 });
      requireSafe(damaged(draw, blocks[at] ?? text));
    }),
    { numRuns: 150 },
  );
});
