import * as S from '../scalar.ts';
import { exampleNote } from './example-note.ts';
import { gives } from './gives.ts';
import { baseDivision } from './reading-parts.ts';
import type { Slip, SlipData } from './slip.ts';
import { difference, opposite, same } from './sums.ts';

/** The right size with the wrong sign. */
export const signSlip: Slip = {
  name: 'sign-slip',
  summary: 'the size is right, the sign is wrong',
  explanation:
    'A zero error has a sign: plus where the closed instrument shows more than nought (the zero of the fine scale stands to the right of the main zero, or the zero of the drum below the line), minus where it shows less. In a difference the sign says which of the two is larger.',
  formula: null,
  example: exampleNote(
    'main scale: 1 cm = 10 MSD',
    'vernier scale: 10 VSD = 9 MSD',
    'closed: vernier zero right, division 4',
    'zero error = -0.04 cm',
    '#            ^^^^^^^^ error wrong-value [sign-slip]',
  ),
  values(data) {
    return S.isZero(data.truth.scalar) ? [] : gives(opposite(data.truth), () => whichSign(data));
  },
};

function whichSign(data: SlipData): string {
  const { target, truth } = data;
  const right = S.sign(truth.scalar) === -1 ? 'negative' : 'positive';
  const isLonger = same(difference(data.value('vernier scale division'), baseDivision(data)), truth);
  if (target === 'least count' && isLonger) {
    return 'a least count is a step and has no sign; the vernier division is the longer one here, so it is V - S';
  }
  if (target !== 'zero error') return `the size is right, but the sign is wrong; it is ${right}`;
  const shows = right === 'negative' ? 'less' : 'more';
  return `the size is right, but the closed instrument shows ${shows} than nought, so its zero error is ${right}`;
}
