import type * as Q from '../quantity.ts';
import { exampleNote } from './example-note.ts';
import { gives } from './gives.ts';
import { inWords, numberWords } from './in-words.ts';
import { baseDivision, claimFrom, type ReadingParts, readingParts, readingWith } from './reading-parts.ts';
import type { Slip, SlipData } from './slip.ts';
import { difference, product, same } from './sums.ts';

/** The length of a vernier division in the place of the least count. */
export const vernierDivisionForLeastCount: Slip = {
  name: 'vernier-division-for-least-count',
  summary: 'the length of a vernier division was used in place of the least count',
  explanation:
    'A vernier division is a length on the slide. What a line counts for is only the little that it falls short of, or goes past, the mark beside it: the least count. So the vernier scale reading is n least counts and never n vernier divisions, which would reach over several main divisions.',
  formula: 'MSR + n × V, not MSR + n × LC',
  example: exampleNote(
    'main scale: 1 cm = 20 MSD',
    'vernier scale: 25 VSD = 24 MSD',
    'main scale reading: 3.15 cm',
    'coinciding division: 9',
    'observed reading = 3.15 cm + 9 × 0.048 cm = 3.582 cm',
    '#                  ^^^^^^^^^^^^^^^^^^^^^^ error wrong-value [vernier-division-for-least-count]',
  ),
  values(data) {
    if (data.vernier === 'none') return [];
    const vernier = data.value('vernier scale division');
    if (vernier === null) return [];
    if (data.target === 'least count') {
      return gives(vernier, () => smallestStep(data, vernier));
    }
    const parts = readingParts(data);
    if (parts === null) return [];
    return gives(
      claimFrom(data, readingWith(parts.mark, parts.line, vernier)),
      () =>
        `${numberWords(parts.line)} was multiplied by the vernier division of ${inWords(data, vernier)}; ${whatCounts(data, parts)}`,
    );
  },
};

/** What a line adds to the mark: so many least counts, but not on every vernier. */
function whatCounts(data: SlipData, { line, leastCount, part }: ReadingParts): string {
  return same(product(line, leastCount), part)
    ? `each line counts only the least count, ${inWords(data, leastCount)}`
    : `with line ${numberWords(line)} in line the zero stands ${inWords(data, part)} past the mark`;
}

function smallestStep(data: SlipData, vernier: Q.Quantity): string {
  const base = baseDivision(data);
  const isDifference = base !== null && same(difference(base, vernier), data.truth);
  const how = isDifference ? `, ${inWords(data, base)} - ${inWords(data, vernier)}` : '';
  return `that is the length of a vernier division; the least count is the smallest step between the two scales${how}`;
}
