import { exampleNote } from './example-note.ts';
import { gives } from './gives.ts';
import { inWords, numberWords } from './in-words.ts';
import { claimFrom, linearMark, rightReading, turnMark } from './reading-parts.ts';
import type { Slip } from './slip.ts';
import { product, sum } from './sums.ts';

/** The division of the drum multiplied by the pitch. */
export const circularReadingTimesPitch: Slip = {
  name: 'circular-reading-times-pitch',
  summary: 'the circular reading was multiplied by the pitch, not by the least count',
  explanation:
    'The pitch is what a whole turn moves the screw. One division of the drum is only an Nth part of a turn, so it counts for the pitch over N, which is the least count.',
  formula: 'LSR + CSR × pitch, not LSR + CSR × LC',
  example: exampleNote(
    'pitch: 0.5 mm',
    'circular scale: 50 divisions',
    'linear scale reading: 7.5 mm',
    'circular scale reading: 35',
    'observed reading = 7.5 mm + 35 × 0.5 mm = 25.00 mm',
    '#                  ^^^^^^^^^^^^^^^^^^^^ error wrong-value [circular-reading-times-pitch]',
  ),
  values(data) {
    if (!data.isScrew || rightReading(data) === null) return [];
    const pitch = data.value('pitch');
    const drum = data.value('circular scale reading');
    const division = data.value('circular scale division');
    const mark = linearMark(data);
    if (pitch === null || drum === null || division === null || mark === null) return [];
    return gives(
      claimFrom(data, sum(mark, product(drum, pitch))),
      () =>
        `${numberWords(drum)} was multiplied by the pitch, which is a whole turn; one division counts ${inWords(data, division)}, ${inWords(data, turnMark(data) ?? mark)} + ${numberWords(drum)} × ${inWords(data, division)}`,
    );
  },
};
