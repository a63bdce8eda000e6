import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { withEdits } from '../../server/src/actions/settled-edits.ts';
import { checkNote } from '../../server/src/checks/check.ts';
import { fencedBlock } from '../properties/generators/bench-note.ts';
import { pick } from '../properties/generators/draw.ts';
import { drawWorkedQuestion } from '../properties/generators/worked-question.ts';
import { drawWorkedVernier } from '../properties/generators/worked-vernier.ts';
import { actionOf, actionsOf } from '../support/actions-of.ts';
import { drawSeed } from '../support/seed.ts';

drawSeed('fill-choices');

const FILL = 'Fill the empty choices from the usual slips, and set the key';
const CALIPERS = [
  'main scale: 1 mm = 1 MSD',
  'vernier scale: 10 VSD = 9 MSD',
  'closed: vernier zero right, division 3',
  'main scale reading: 7 mm',
  'coinciding division: 4',
];

function filled(lines: readonly string[], title = FILL): string {
  const text = fencedBlock(lines, 'hub-nut');
  return withEdits(text, actionOf(text, 'find', title).edits());
}

/** The lines that a block had not before. */
function written(lines: readonly string[], title = FILL): readonly string[] {
  return filled(lines, title)
    .split('\n')
    .slice(1, -1)
    .filter(line => !lines.includes(line));
}

describe('empty choices', () => {
  // Worked out by hand: 7 mm + 4 × 0.1 mm = 7.4 mm, less +0.3 mm; uncorrected 7.4 mm, added instead 7.7 mm, twice 6.8 mm.
  it('get the right value, and what comes of the usual slips', () => {
    expect(
      written([
        ...CALIPERS,
        'find: corrected reading',
        'option A:',
        'option B: ?',
        'option C:  # later',
        'D.',
      ]),
    ).toEqual([
      'option A: 7.1 mm',
      'option B: 7.4 mm',
      'option C: 7.7 mm  # later',
      'D. 6.8 mm',
      'answer = A',
    ]);
  });

  it('leave what stands, and take its unit', () => {
    const lines = [...CALIPERS, 'find: corrected reading', '(a) 0.74 cm', '(b)', '(c) 0.71 cm', 'Ans: (b)'];
    expect(written(lines, 'Fill the empty choice from the usual slips, and set the key')).toEqual([
      '(b) 0.77 cm',
      'Ans: C',
    ]);
  });

  it('put the right one where the key says', () => {
    expect(written([...CALIPERS, 'find: corrected reading', 'option A:', 'option B:', 'answer = A'])).toEqual(
      ['option A: 7.1 mm', 'option B: 7.4 mm'],
    );
  });

  it('are numbered if the others are', () => {
    const block = filled([...CALIPERS, 'find: zero error', 'option 1: +0.3 mm', 'option 2:', 'option 3:']);
    expect(block).toContain('answer = 1');
    expect(checkNote(block).findings).toEqual([]);
  });

  it('stay empty where the slips give no more', () => {
    const letters = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ'.split('');
    const block = filled([
      'pitch: 1 mm',
      'circular scale: 100 divisions',
      'find: least count',
      ...letters.map(letter => `option ${letter}:`),
    ]);
    expect(block).toMatch(/^option Z:$/m);
    expect(checkNote(block).findings.every(({ rule }) => rule === 'unreadable-line')).toBe(true);
  });

  it('are no matter where nothing says what is asked, or it cannot be worked out', () => {
    const titles = (lines: readonly string[]) =>
      actionsOf(fencedBlock(lines, null), 'option A').map(({ title }) => title);
    expect(titles([...CALIPERS, 'option A:'])).not.toContain(FILL);
    expect(titles(['find: least count', 'option A:', 'option B:'])).not.toContain(FILL);
  });

  it('are filled with formulas where the block has letters', () => {
    const lines = ['w: any length', 'k: any whole number', 'main scale: 1 MSD = w'];
    const block = filled([
      ...lines,
      'vernier scale: 2k VSD = (2k - 1) MSD',
      'find: least count',
      'option A:',
      'option B:',
    ]);
    expect(block).toContain('w/(2k)');
    expect(checkNote(block).findings).toEqual([]);
  });
});

it('sets a key that is asked for', () => {
  expect(
    written(
      [...CALIPERS, 'find: corrected reading', 'option A: 7.4 mm', 'option B: 7.1 mm', 'answer = ?'],
      'Set the key',
    ),
  ).toEqual(['answer = B']);
});

it('makes of every question one with four different choices and one right key', () => {
  fc.assert(
    fc.property(fc.gen(), draw => {
      const vernier = drawWorkedVernier(draw, 'axle');
      const question = drawWorkedQuestion(draw, 'q7', vernier, vernier.setting);
      const emptied = question.map(line =>
        line.replace(/^(option \w:|\(\w\)|\w\.) .*/, (_, head: string) => pick(draw, [head, `${head} ?`])),
      );
      const key = pick(draw, [['answer = ?'], ['answer = B'], []]);
      const text = [
        fencedBlock(vernier.lines, vernier.name),
        [...emptied.slice(0, -2), ...key, '```'].join('\n'),
      ].join('\n\n');
      const title = actionsOf(text, 'find: corrected').find(each => each.title.startsWith('Fill the empty'));
      if (title === undefined) throw new Error(text);
      const made = withEdits(text, title.edits());
      expect(checkNote(made).findings, made).toEqual([]);
      const choices = [
        ...made.slice(made.indexOf('find:')).matchAll(/^(?:option \w:|\(\w\)|\w\.) (.+)$/gm),
      ].map(match => match[1]);
      expect(choices.length, made).toBe(emptied.length - 5);
      expect(new Set(choices).size, made).toBe(choices.length);
      expect(made).toMatch(/^answer = [A-D]$/m);
    }),
    { numRuns: 60 },
  );
});
