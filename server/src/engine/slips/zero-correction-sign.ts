import * as S from '../scalar.ts';
import { exampleNote } from './example-note.ts';
import { gives } from './gives.ts';
import { inBrackets, readingInWords, withSign } from './in-words.ts';
import type { Slip } from './slip.ts';
import { opposite, sum } from './sums.ts';
import { zeroCheck } from './zero-check.ts';

/** The zero correction was made the wrong way round. */
export const zeroCorrectionSign: Slip = {
  name: 'zero-correction-sign',
  summary: 'the zero error was added where it is taken off',
  explanation:
    'A zero error is taken off: what shows too much when it is closed shows too much everywhere, so the true size is smaller; what shows too little is made larger. The zero correction, which is added, has the other sign than the zero error.',
  formula: 'corrected = observed + zero error, not observed - zero error',
  example: exampleNote(
    'main scale: 1 MSD = 1 mm',
    'vernier scale: 50 VSD = 49 MSD',
    'closed: vernier zero left, division 46',
    'main scale reading: 31 mm',
    'coinciding division: 38',
    'corrected reading = 31.76 mm - 0.08 mm = 31.68 mm',
    '#                   ^^^^^^^^^^^^^^^^^^ error wrong-value [zero-correction-sign]',
  ),
  values(data) {
    if (data.target === 'zero correction') {
      if (S.isZero(data.truth.scalar)) return [];
      const zeroError = opposite(data.truth)!;
      return gives(
        zeroError,
        () =>
          `the correction is the zero error with its sign changed; the error is ${withSign(data, zeroError)}, so ${withSign(data, data.truth)} is added`,
      );
    }
    const check = zeroCheck(data);
    if (check === null) return [];
    const { observed, zeroError } = check;
    return gives(
      sum(observed, zeroError),
      () =>
        `the zero correction went the wrong way; take the zero error of ${withSign(data, zeroError)} off with its sign, ${readingInWords(data, observed)} - ${inBrackets(data, zeroError)}`,
    );
  },
};
