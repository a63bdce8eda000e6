import { exampleNote } from './example-note.ts';
import { gives } from './gives.ts';
import { inWords } from './in-words.ts';
import { claimFrom, countedTurns, linearMark, readingParts, rightReading } from './reading-parts.ts';
import type { Slip } from './slip.ts';
import { sum } from './sums.ts';

/** The mark after the zero of the fine scale in place of the last one before it. */
export const nextMark: Slip = {
  name: 'next-mark',
  summary: 'the mark after the zero was read in place of the last one before it',
  explanation:
    'The main scale reading is the last mark that the zero of the fine scale has passed, even where the next one is nearer: the fine scale says how far past that mark it stands. Reading the nearer mark makes the size one whole division too large.',
  formula: 'MSR + S + n × LC, not MSR + n × LC',
  example: exampleNote(
    'main scale reading: between 7.35 cm and 7.40 cm',
    'vernier scale: 25 VSD = 24 MSD',
    'coinciding division: 17',
    'observed reading = 7.40 cm + 17 × 0.002 cm = 7.434 cm',
    '#                  ^^^^^^^^^^^^^^^^^^^^^^^ error wrong-value [next-mark]',
  ),
  values(data) {
    const reading = rightReading(data);
    if (reading === null || (data.isScrew && countedTurns(data) !== null)) return [];
    const mark = data.isScrew ? linearMark(data) : (readingParts(data)?.mark ?? null);
    if (mark === null) return [];
    const division = data.value(data.isScrew ? 'linear scale division' : 'main scale division');
    const zero = data.isScrew ? 'the edge of the drum' : "the vernier's zero";
    return gives(
      claimFrom(data, sum(reading, division)),
      () => `the mark after ${zero} was read; what counts is the last one before it, ${inWords(data, mark)}`,
    );
  },
};
