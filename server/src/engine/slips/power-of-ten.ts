import * as R from '../rational.ts';
import * as S from '../scalar.ts';
import { exampleNote } from './example-note.ts';
import { gives } from './gives.ts';
import type { Slip } from './slip.ts';
import { type Maybe, times } from './sums.ts';

/** The right digits with the decimal point in a wrong place. */
export const powerOfTen: Slip = {
  name: 'power-of-ten',
  summary: 'the digits are right, but the decimal point is not',
  explanation:
    'A factor of ten, a hundred or a thousand too much or too little comes of a lost nought, of a wrong prefix or of a power of ten with the wrong sign. Before writing a result down, say it in words: can a spoke be 20 mm thick?',
  formula: null,
  example: exampleNote(
    'screw: 1 rotation = 0.5 mm',
    'circular scale: 50 divisions',
    'pitch = 0.05 mm',
    '#       ^^^^^^^ error wrong-value [power-of-ten]',
  ),
  values({ truth, stated, place }) {
    // Nought has no decimal point to move, and every small value moved far enough rounds to it.
    if (S.isZero(stated.scalar) || S.isZero(truth.scalar)) return [];
    return [1, 2, 3].flatMap(places => {
      const factor = R.rational(10 ** places);
      const far = `the digits are right, but the decimal point is ${WORDS[places - 1]} too far to the`;
      const less = times(truth, R.reciprocal(factor) ?? R.ONE);
      return [
        ...gives(times(truth, factor), () => `${far} right`),
        ...(isLost(less, place) ? [] : gives(less, () => `${far} left`)),
      ];
    });
  },
};

/** Whether no digit is left at the stated place: 0.0007 is 0.001 there, which is another digit. */
function isLost(value: Maybe, place: R.Rational | null): boolean {
  const size = value && S.abs(value.scalar);
  return size !== null && place !== null && S.compare(size, S.real(place)) === -1;
}

const WORDS = ['one place', 'two places', 'three places'] as const;
