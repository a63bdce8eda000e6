import * as S from '../scalar.ts';
import { exampleNote } from './example-note.ts';
import { gives } from './gives.ts';
import type { Slip } from './slip.ts';

/** Deviations from the mean added with their signs, so that they cancel. */
export const signedDeviations: Slip = {
  name: 'signed-deviations',
  summary: 'the deviations were added with their signs, so that they cancel',
  explanation:
    'The deviations from a mean always add up to nought: that is what makes it the mean. How far the values scatter is seen only when each deviation counts without its sign, before they are added and divided by their number.',
  formula: 'sum of (x - mean) / n, not sum of |x - mean| / n',
  example: exampleNote(
    'T: 2.01 s, 1.99 s, 2.00 s, 2.02 s, 1.98 s',
    'mean absolute error of T = 0.000 s',
    '#                          ^^^^^^^ error wrong-value [signed-deviations]',
  ),
  values(data) {
    if (data.target !== 'mean absolute error' || data.values.length < 2) return [];
    return gives(
      { ...data.truth, scalar: S.NOUGHT },
      () => 'the deviations were added with their signs, and so they cancel; take each without its sign',
    );
  },
};
