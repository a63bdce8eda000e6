import { describe, expect, it } from 'vitest';
import { examineNote } from '../../server/src/checks/examine.ts';
import { deriveQuestion } from '../../server/src/workings/derive-question.ts';
import { readableLines } from './worked-note.ts';

const SHELL = [
  '```measurement shell',
  'instrument: vernier calipers',
  'main scale: 1 MSD = 1 mm',
  'vernier scale: 20 VSD = 19 MSD',
  'closed: vernier zero left, division 16',
  'MSR: 34 mm',
  'VC: 12',
  '```',
  '',
];

/** What a question about the shell of a hub says of its choices. */
function choices(...lines: readonly string[]): string | null {
  const text = [...SHELL, '```measurement q', 'uses: shell', ...lines, '```', ''].join('\n');
  const note = examineNote(text)!;
  const derivation = deriveQuestion({ note, facts: note.facts.block(1), way: null });
  return derivation === null ? null : readableLines(derivation);
}

// By hand: 34 mm + 12 × 0.05 mm = 34.60 mm, and four divisions short of nought, 34.80 mm.
describe('the choices of a question', () => {
  it('are told right or wrong, by their slips', () => {
    expect(
      choices(
        'find: corrected reading',
        'option A: 34.60 mm',
        'option B: 34.40 mm',
        'option C: 34.80 mm',
        'option D: 35.17 mm',
        'answer = C',
      )?.split('\n'),
    ).toEqual([
      'Choices',
      'corrected reading = 34.80 mm',
      expect.stringMatching(/^\(A\) 34\.60 mm is wrong: the zero error of .* is still in it/),
      expect.stringMatching(/^\(B\) 34\.40 mm is wrong: the zero correction went the wrong way/),
      '(C) 34.80 mm is right',
      '(D) 35.17 mm does not follow from what was recorded',
    ]);
  });

  it('with none of these', () => {
    expect(choices('find: observed reading', 'option A: 34.65 mm', 'option B: none of these')).toContain(
      '(B) is right: no other choice has the value',
    );
    expect(choices('find: observed reading', 'option A: 34.60 mm', 'option B: none of these')).toContain(
      '(B) is wrong, for (A) is right',
    );
  });

  it('of which several are right', () => {
    const text = choices(
      'find: observed reading',
      'option A: 34.60 mm',
      'option B: 3.460 cm',
      'option C: 30 g',
    );
    expect(text).toContain('(A) 34.60 mm is right, as (B) is: both agree with it');
    expect(text).toContain('(C) 30 g is wrong: it is another kind of quantity than 34.60 mm');
  });

  it('of which none is right', () => {
    expect(choices('find: observed reading', 'option A: 34.65 mm', 'option B: 34.55 mm')).toContain(
      'No choice is right: none of them is 34.60 mm',
    );
  });

  it('are nothing without a question, without choices, without a value', () => {
    expect(choices()).toBeNull();
    expect(choices('find: observed reading', 'answer = 34.60 mm')).toBeNull();
    expect(choices('find: mean of T', 'option A: 3 s')).toBeNull();
  });
});
