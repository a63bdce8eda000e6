import * as R from '../rational.ts';
import * as S from '../scalar.ts';
import { exampleNote } from './example-note.ts';
import { gives } from './gives.ts';
import { inFull } from './in-words.ts';
import type { Slip, SlipData } from './slip.ts';
import type { Maybe } from './sums.ts';

/** The digits behind the last place cut off, not rounded. */
export const cutOff: Slip = {
  name: 'cut-off',
  summary: 'the digits behind the last place were cut off, not rounded',
  explanation:
    'A calculator shows ten digits, and writing down only the first few is not rounding: where the first digit left out is 5 or more, the last one kept goes up by one. Cutting off makes every result a little too small.',
  formula: null,
  example: exampleNote(
    'a: 14.9 mm',
    'b: 13.8 mm',
    'ratio q = a / b = 1.07',
    '#                 ^^^^ error wrong-value [cut-off]',
  ),
  values(data) {
    return gives(
      cutValue(data),
      () => `the digits behind the last place were cut off; ${inFull(data, data.truth)} has to be rounded`,
    );
  },
};

/** The right value cut off at the stated place; null for a claim that states no place. */
export function cutValue({ truth, place }: SlipData): Maybe {
  const value = S.realValue(truth.scalar);
  if (value === null || place === null) return null;
  return { ...truth, scalar: S.real(R.roundTo(value, place, 'down')) };
}
