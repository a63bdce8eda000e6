import * as Q from '../quantity.ts';
import * as S from '../scalar.ts';
import { exampleNote } from './example-note.ts';
import { gives } from './gives.ts';
import { inWords, numberWords } from './in-words.ts';
import { claimFrom, linearMark, rightReading, turnMark } from './reading-parts.ts';
import type { Slip, SlipData, SlipValue } from './slip.ts';
import { product, quotient, same, sum } from './sums.ts';

/** One division of the linear scale taken for the pitch, where a turn does not span just one. */
export const pitchAsOneDivision: Slip = {
  name: 'pitch-as-one-division',
  summary: 'one linear division was taken for the pitch',
  explanation:
    'The pitch is the way of the screw in one full rotation, and that need not be one division of the linear scale. Turn the drum once round and look how far its edge has gone: over two half-millimetre divisions the pitch is 1 mm, and from one millimetre mark to the next with two turns it is 0.5 mm.',
  formula: 'pitch = 1 LSD, not the way of one rotation',
  example: exampleNote(
    'screw: 1 rotation = 1 mm',
    'linear scale: 1 mm = 2 LSD',
    'circular scale: 100 divisions',
    'pitch = 0.5 mm',
    '#       ^^^^^^ error wrong-value [pitch-as-one-division]',
  ),
  values(data) {
    const pitch = data.value('pitch');
    const linear = data.value('linear scale division');
    if (!data.isScrew || pitch === null || linear === null) return [];
    const spanned = quotient(pitch, linear);
    const turn = (): string =>
      `one rotation moves the screw by ${inWords(data, pitch)}${spanned === null ? '' : `, ${spansInWords(spanned)}`}`;
    const count = data.count && Q.plain(data.count);
    const step = quotient(linear, data.vernier === 'none' ? count : null);
    switch (data.target) {
      case 'pitch':
        return gives(linear, () => `that is one linear division; ${turn()}`);
      case 'least count':
        return gives(
          step,
          () => `one linear division of ${inWords(data, linear)} was divided, not the pitch; ${turn()}`,
        );
      default:
        if (rightReading(data) === null) return [];
        return [
          ...gives(
            claimFrom(data, sum(linearMark(data), product(data.value('circular scale reading'), step))),
            () => `one linear division of ${inWords(data, linear)} was taken for the pitch; ${turn()}`,
          ),
          ...drumBegunAnew(data, turn),
        ];
    }
  },
};

/** The drum added to a mark that it has passed within its turn, as if it began anew at each one. */
function drumBegunAnew(data: SlipData, turn: () => string): readonly SlipValue[] {
  const [mark, from] = [linearMark(data), turnMark(data)];
  const drum = data.value('circular scale reading');
  const division = data.vernier === 'none' ? data.value('circular scale division') : null;
  if (mark === null || from === null || drum === null || division === null || same(mark, from)) return [];
  // 3 mm + 44 × 0.01 mm begins at another mark.
  const next = sum(mark, data.value('linear scale division'));
  if (data.numbers.some(number => same(number, next))) return [];
  const counts = (start: Q.Quantity): string =>
    `${inWords(data, start)} + ${numberWords(drum)} × ${inWords(data, division)}`;
  return gives(
    claimFrom(data, sum(mark, product(drum, division))),
    () =>
      `the drum was added to ${inWords(data, mark)} as if it began anew there; ${turn()}, ${counts(from)}`,
  );
}

function spansInWords(spanned: Q.Quantity): string {
  const isPart = S.compare(spanned.scalar, S.UNITY) === -1;
  return `${numberWords(spanned)} ${isPart ? 'of a linear division' : 'linear divisions'}`;
}
