import { exampleNote } from './example-note.ts';
import { gives } from './gives.ts';
import { inBrackets, readingInWords, withSign } from './in-words.ts';
import type { Slip } from './slip.ts';
import { difference } from './sums.ts';
import { zeroCheck } from './zero-check.ts';

/** The zero error was taken off twice. */
export const zeroCorrectionTwice: Slip = {
  name: 'zero-correction-twice',
  summary: 'the zero error was taken off twice',
  explanation:
    'The zero error is taken off once. It happens that somebody corrects the reading on the bench already and once more at the desk: write down the observed reading as it stands on the scale, and correct it in a line of its own.',
  formula: 'corrected = observed - 2 × zero error, not observed - zero error',
  example: exampleNote(
    'pitch: 0.5 mm',
    'circular scale: 50 divisions',
    'closed: circular zero below the line, division 3',
    'linear scale reading: 4.5 mm',
    'circular scale reading: 21',
    'corrected reading = 4.65 mm',
    '#                   ^^^^^^^ error wrong-value [zero-correction-twice]',
  ),
  values(data) {
    const check = zeroCheck(data);
    if (check === null) return [];
    const { zeroError } = check;
    return gives(
      difference(data.truth, zeroError),
      () =>
        `the zero error of ${withSign(data, zeroError)} was taken off twice; once is enough, ${readingInWords(data, check.observed)} - ${inBrackets(data, zeroError)}`,
    );
  },
};
