import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { examineNote } from '../../server/src/checks/examine.ts';
import type { Subject } from '../../server/src/language/measurement.ts';
import { claimLine } from '../../server/src/render/derivation-lines.ts';
import { workedSubjects } from '../../server/src/workings/worked-subjects.ts';
import { workingOf } from '../../server/src/workings/working.ts';
import { damaged } from '../properties/generators/damage.ts';
import { HOSTILE } from '../properties/generators/hostile-note.ts';
import { drawWorkedScrew } from '../properties/generators/worked-screw.ts';
import { drawWorkedVernier } from '../properties/generators/worked-vernier.ts';
import { drawSeed } from '../support/seed.ts';
import { isRead } from './sound-workings.ts';

// What must hold of any text at all: a working is made, or none is, but nothing is thrown.
drawSeed('workings of hostile notes');

const BLOCKS = 6;
const SUBJECTS = 60;

const ASKED: readonly Subject[] = (
  [
    'pitch',
    'least count',
    'zero error',
    'zero correction',
    'observed reading',
    'corrected reading',
    'coinciding division',
    'vernier scale reading',
  ] as const
).map(term => ({ kind: 'term', term, row: null, block: null }));

function requireSafe(text: string): void {
  const note = examineNote(text);
  for (let block = 0; note !== null && block < Math.min(note.fences, BLOCKS); block++) {
    const subjects = workedSubjects(note.facts.block(block)).filter(isRead).slice(0, SUBJECTS);
    for (const subject of [...subjects, ...ASKED]) {
      for (const way of [null, 'scales'] as const) {
        const working = workingOf(note, block, subject, { way });
        for (const step of working?.derivation.steps ?? []) expect(() => claimLine(step)).not.toThrow();
      }
    }
  }
}

describe.each(Object.entries(HOSTILE))('%s', (_, notes) => {
  test.each(Object.entries(notes))('%s', (_, text) => requireSafe(text));
});

test('damaged notes', () => {
  fc.assert(
    fc.property(fc.gen(), draw => {
      const lines = [...drawWorkedVernier(draw, 'a').lines, '', ...drawWorkedScrew(draw, 'b').lines];
      const note = [
        '```measurement a',
        ...lines.slice(0, 12),
        '```',
        '',
        '```measurement b',
        ...lines.slice(12),
        '```',
      ].join('\n');
      requireSafe(damaged(draw, note));
    }),
    { numRuns: 60 },
  );
});
