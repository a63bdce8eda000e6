import { exampleNote } from './example-note.ts';
import { gives } from './gives.ts';
import { inWords, numberWords } from './in-words.ts';
import { claimFrom, readingParts, readingWith } from './reading-parts.ts';
import type { Slip } from './slip.ts';
import { difference, product, sum } from './sums.ts';

/** The main mark in line with the vernier line taken for the main scale reading. */
export const markAtCoincidence: Slip = {
  name: 'mark-at-coincidence',
  summary: 'the main mark in line with the vernier line was taken for the main scale reading',
  explanation:
    "Two places of the vernier are looked at, one for each scale. The main scale reading is the last mark before the vernier's zero. The line that stands in line with some main mark only says which line it is: the number of that mark is not read at all.",
  formula: 'mark in line + n × LC, not MSR + n × LC',
  example: exampleNote(
    'main scale: 1 MSD = 1 mm',
    'vernier scale: 10 VSD = 9 MSD',
    'main scale reading: 13 mm',
    'coinciding division: 8',
    'observed reading = 21 mm + 8 × 0.1 mm = 21.8 mm',
    '#                  ^^^^^^^^^^^^^^^^^^ error wrong-value [mark-at-coincidence]',
  ),
  values(data) {
    if (data.vernier === 'none') return [];
    const parts = readingParts(data);
    const along = parts && product(parts.line, data.value('vernier scale division'));
    if (parts === null || along === null) return [];
    const inLine = data.runsBackward ? difference(parts.reading, along) : sum(parts.reading, along);
    if (inLine === null) return [];
    const because = (): string =>
      `${inWords(data, inLine)} is the mark in line with line ${numberWords(parts.line)}; what counts is the last mark before the vernier's zero, ${inWords(data, parts.mark)}`;
    return [
      ...gives(claimFrom(data, readingWith(inLine, parts.line, parts.leastCount)), because),
      ...gives(claimFrom(data, sum(inLine, parts.part)), because),
    ];
  },
};
