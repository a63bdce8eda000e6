import * as R from '../rational.ts';
import { exampleNote } from './example-note.ts';
import { gives } from './gives.ts';
import { inWords, numberWords } from './in-words.ts';
import { baseDivision } from './reading-parts.ts';
import type { Slip, SlipData } from './slip.ts';
import { difference, opposite, same, size } from './sums.ts';
import { vernierSpan } from './vernier-span.ts';

/** S - V taken for the least count of a vernier for which it is not. */
export const differenceNotLeastCount: Slip = {
  name: 'difference-not-least-count',
  summary: 'S - V was taken for the least count where it is not',
  explanation:
    'The least count is the smallest step that the scales can tell apart. Where N vernier divisions span one main division less or more than N, that step is the difference of the two divisions. On a stretched vernier such as 20 VSD = 39 MSD it is 2S - V, and on one such as 10 VSD = 7 MSD two lines far apart make the smallest step.',
  formula: 'least count = |S - V|, not the smallest |b × V - m × S|',
  example: exampleNote(
    'main scale: 1 MSD = 1 mm',
    'vernier scale: 10 VSD = 7 MSD',
    'least count = S - V = 0.3 mm',
    '#             ^^^^^ error wrong-value [difference-not-least-count]',
  ),
  values(data) {
    if (data.target !== 'least count' || data.vernier === 'none') return [];
    const step = difference(baseDivision(data), data.value('vernier scale division'));
    // Where V is longer only the sign of S - V is wrong.
    if (step === null || same(size(step), data.truth)) return [];
    const because = (): string => onlyWhere(data);
    const apart = size(step) ?? step;
    return [...gives(apart, because), ...gives(opposite(apart), because)];
  },
};

/** Where S - V would be the least count, and what these scales have. */
function onlyWhere(data: SlipData): string {
  const span = vernierSpan(data);
  const right = `the smallest step is ${inWords(data, data.truth)}`;
  if (span === null || data.count === null) return `the two divisions differ by that, but ${right}`;
  const [less, N, more] = [R.subtract(data.count, R.ONE), data.count, R.add(data.count, R.ONE)].map(
    numberWords,
  );
  return `S - V is the least count only where ${N} vernier divisions span ${less} or ${more} of the other scale; here they span ${numberWords(span)}, and ${right}`;
}
