import * as Q from '../quantity.ts';
import * as R from '../rational.ts';
import { roundsTo } from '../rounds-to.ts';
import * as S from '../scalar.ts';
import { exampleNote } from './example-note.ts';
import { gives } from './gives.ts';
import { inFull, inWords } from './in-words.ts';
import type { Slip, SlipData, SlipValue } from './slip.ts';

/** Rounded in two steps: 0.345, 0.35, 0.4. */
export const roundedTwice: Slip = {
  name: 'rounded-twice',
  summary: 'a value that was rounded already was rounded again',
  explanation:
    'Rounding goes from the full value to the place wanted, in one step. In two steps 0.345 becomes 0.35 and then 0.4, although 0.345 is nearer to 0.3. Keep the full value in the calculator, and round only what is written down last.',
  formula: null,
  example: exampleNote(
    'a: 0.345',
    'b = a = 0.35 = 0.4',
    '#              ^^^ error wrong-value [rounded-twice]',
  ),
  values(data) {
    const exact = S.realValue(data.truth.scalar);
    if (exact === null || data.place === null) return [];
    const finer = R.multiply(data.place, R.rational(1, 10));
    return [linkBefore(data, exact), R.roundTo(exact, finer, 'half-away')].flatMap(once =>
      once === null ? [] : roundedAgain(data, once, data.place!),
    );
  },
};

/** The link before, where it rounds the right value correctly. */
function linkBefore({ before, truth }: SlipData, exact: R.Rational): R.Rational | null {
  if (before === null || before.place === null || Q.compare(before.value, truth) === undefined) return null;
  const value = S.realValue(before.value.scalar);
  return value !== null && roundsTo(exact, value, before.place) ? value : null;
}

function roundedAgain(data: SlipData, once: R.Rational, place: R.Rational): readonly SlipValue[] {
  const { truth } = data;
  const first = { ...truth, scalar: S.real(once) };
  const twice = { ...truth, scalar: S.real(R.roundTo(once, place, 'half-away')) };
  return gives(
    twice,
    () =>
      `it was rounded twice, to ${inWords(data, first)} and then to ${inWords(data, twice)}; round once, from ${inFull(data, truth)}`,
  );
}
