import * as S from '../scalar.ts';
import { exampleNote } from './example-note.ts';
import { gives } from './gives.ts';
import { inWords, numberWords } from './in-words.ts';
import { claimFrom, countedTurns, rightReading } from './reading-parts.ts';
import type { Slip } from './slip.ts';
import { difference, product, sum } from './sums.ts';

/** One full rotation too few or too many where rotations are counted. */
export const rotationMiscounted: Slip = {
  name: 'rotation-miscounted',
  summary: 'the full rotations were counted wrongly by one',
  explanation:
    'Only complete rotations count, the rest is on the circular scale. A small hand between 5 and 6 has completed five turns, and where a disc is turned by hand the turn that is under way is no full rotation yet.',
  formula: '(turns ± 1) × pitch + CSR × LC, not turns × pitch + CSR × LC',
  example: exampleNote(
    'pitch: 1 mm',
    'circular scale: 100 divisions',
    'full rotations: between 5 and 6',
    'circular scale reading: 7',
    'observed reading = 6.07 mm',
    '#                  ^^^^^^^ error wrong-value [rotation-miscounted]',
  ),
  values(data) {
    const reading = rightReading(data);
    const turns = countedTurns(data);
    const pitch = data.value('pitch');
    const whole = product(turns, pitch);
    const part = difference(reading, whole);
    if (turns === null || pitch === null || whole === null || part === null) return [];
    const right = (): string =>
      `${numberWords(turns)} ${S.equals(turns.scalar, S.UNITY) ? 'is' : 'are'} complete, ${inWords(data, whole)}, and the circular scale adds ${inWords(data, part)}`;
    return [
      ...gives(
        claimFrom(data, sum(reading, pitch)),
        () => `one full rotation too many was counted; ${right()}`,
      ),
      ...gives(
        claimFrom(data, difference(reading, pitch)),
        () => `one full rotation too few was counted; ${right()}`,
      ),
    ];
  },
};
