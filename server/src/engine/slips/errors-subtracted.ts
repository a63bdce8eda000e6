import * as R from '../rational.ts';
import * as S from '../scalar.ts';
import { combination, errorShares } from './error-shares.ts';
import { exampleNote } from './example-note.ts';
import { gives } from './gives.ts';
import { inWords } from './in-words.ts';
import type { Slip } from './slip.ts';
import { difference, opposite, size, sum, times } from './sums.ts';

/** Errors taken from each other where they add up. */
export const errorsSubtracted: Slip = {
  name: 'errors-subtracted',
  summary: 'errors were subtracted where they add up',
  explanation:
    'Nobody knows to which side a reading is off. In the worst case the minuend is too large and the subtrahend too small, and then both errors pull the same way: the largest possible error of a difference is the sum of both errors, and that of a quotient the sum of both relative errors. Errors never cancel on paper.',
  formula: 'Δa - Δb, not Δa + Δb',
  example: exampleNote(
    'a: 72.46 mm ± 0.02 mm',
    'b: 11.40 mm ± 0.05 mm',
    'height H = a - b = 61.06 mm',
    'absolute error of H = 0.05 mm - 0.02 mm = 0.03 mm',
    '#                     ^^^^^^^^^^^^^^^^^ error wrong-value [errors-subtracted]',
  ),
  values(data) {
    if (combination(data) !== 'sum') return [];
    const shares = errorShares(data).map(share => share.size);
    if (shares.length < 2) return [];
    const total = sum(...shares);
    const isNegative = S.sign(data.stated.scalar) === -1;
    const parts = (): string => shares.map(share => inWords(data, share)).join(' + ');
    // All but one of three or more subtracted: the first less the rest.
    const onlyOne = shares.length > 2 ? shares.map(share => difference(times(share, R.TWO), total)) : [];
    return [...shares.map(share => difference(total, times(share, R.TWO))), ...onlyOne].flatMap(left => {
      const positive = size(left);
      return gives(
        isNegative ? opposite(positive) : positive,
        () => `errors add up, also where the quantities are subtracted or divided, ${parts()}`,
      );
    });
  },
};
