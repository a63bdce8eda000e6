import { exampleNote } from './example-note.ts';
import { gives } from './gives.ts';
import { inBrackets, readingInWords, withSign } from './in-words.ts';
import type { Slip } from './slip.ts';
import { zeroCheck } from './zero-check.ts';

/** The zero error was never taken off. */
export const zeroCorrectionLeftOut: Slip = {
  name: 'zero-correction-left-out',
  summary: 'the zero error was not taken off',
  explanation:
    'An instrument that does not show nought when it is closed carries that error into everything it measures. The observed reading is only half of the work: take the zero error off, with its sign, and only then write down the size.',
  formula: 'corrected = observed, not observed - zero error',
  example: exampleNote(
    'main scale: 1 cm = 10 MSD',
    'vernier scale: 10 VSD = 9 MSD',
    'closed: vernier zero right, division 4',
    'main scale reading: 1.2 cm',
    'coinciding division: 7',
    'corrected reading = 1.27 cm',
    '#                   ^^^^^^^ error wrong-value [zero-correction-left-out]',
  ),
  values(data) {
    const check = zeroCheck(data);
    if (check === null) return [];
    const { observed, zeroError } = check;
    return gives(
      observed,
      () =>
        `the zero error of ${withSign(data, zeroError)} is still in it; take it off, ${readingInWords(data, observed)} - ${inBrackets(data, zeroError)}`,
    );
  },
};
