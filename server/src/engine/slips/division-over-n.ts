import * as Q from '../quantity.ts';
import * as R from '../rational.ts';
import { exampleNote } from './example-note.ts';
import { gives } from './gives.ts';
import { inWords, numberWords } from './in-words.ts';
import { baseDivision } from './reading-parts.ts';
import type { Slip, SlipData } from './slip.ts';
import { quotient } from './sums.ts';
import { vernierSpan } from './vernier-span.ts';

/** S/N taken for the least count of a vernier for which it is not. */
export const divisionOverN: Slip = {
  name: 'division-over-n',
  summary: 'S/N was taken for the least count where it is not',
  explanation:
    'A main division over the number of vernier divisions is the least count only where no smaller number of vernier divisions comes out even: 10 VSD = 8 MSD is the same vernier as 5 VSD = 4 MSD, since every fifth line says the same again, and its least count is S/5.',
  formula: 'least count = S/N, not the smallest |b × V - m × S|',
  example: exampleNote(
    'main scale: 1 MSD = 1 mm',
    'vernier scale: 10 VSD = 8 MSD',
    'least count = S/N = 0.1 mm',
    '#             ^^^ error wrong-value [division-over-n]',
  ),
  values(data) {
    const { count } = data;
    if (data.target !== 'least count' || data.vernier === 'none' || count === null) return [];
    return gives(quotient(baseDivision(data), Q.plain(count)), () => repeats(data, count));
  },
};

function repeats(data: SlipData, count: R.Rational): string {
  const span = vernierSpan(data);
  const shared = span === null ? R.ONE : R.gcd(count, span);
  const right = `the smallest step is ${inWords(data, data.truth)}`;
  if (span === null || !R.isInteger(shared) || R.compare(shared, R.ONE) !== 1) {
    return `that many of these lines do not share out a division; ${right}`;
  }
  const [lines, divisions] = [count, span].map(number => numberWords(R.divide(number, shared) ?? number));
  return `${numberWords(count)} vernier divisions span ${numberWords(span)} of the other scale as ${lines} span ${divisions}, so the lines say the same again after ${lines}, and ${right}`;
}
