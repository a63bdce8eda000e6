import { exampleNote } from './example-note.ts';
import { gives } from './gives.ts';
import { inWords } from './in-words.ts';
import { claimFrom, countedTurns, linearMark, rightReading } from './reading-parts.ts';
import type { Slip } from './slip.ts';
import { difference, sum } from './sums.ts';

/** One turn of the screw too few or too many: the missed half millimetre. */
export const halfTurnMissed: Slip = {
  name: 'half-turn-missed',
  summary: 'one turn of the screw was missed on the sleeve, or one too many was read',
  explanation:
    'With a pitch of 0.5 mm the drum goes round twice within a millimetre, and it shows the same numbers both times. Only the sleeve says which turn it is: look for the half-millimetre mark that the edge of the drum has just uncovered, and do not count one that is still hidden.',
  formula: 'LSR + CSR × LC ± pitch, not LSR + CSR × LC',
  example: exampleNote(
    'screw: 2 rotations = 1 mm',
    'linear scale: 1 mm = 2 LSD',
    'circular scale: 50 divisions',
    'linear scale reading: 7.5 mm',
    'circular scale reading: 33',
    'observed reading = 7.33 mm',
    '#                  ^^^^^^^ error wrong-value [half-turn-missed]',
  ),
  values(data) {
    const reading = rightReading(data);
    if (!data.isScrew || reading === null || countedTurns(data) !== null) return [];
    const pitch = data.value('pitch');
    const mark = linearMark(data);
    const part = difference(reading, mark);
    if (pitch === null || mark === null || part === null) return [];
    const right = (): string => `the reading is ${inWords(data, mark)} + ${inWords(data, part)}`;
    const turn = (): string => `one turn of the screw, ${inWords(data, pitch)},`;
    return [
      ...gives(claimFrom(data, difference(reading, pitch)), () => `${turn()} is missing; ${right()}`),
      ...gives(claimFrom(data, sum(reading, pitch)), () => `${turn()} is too many; ${right()}`),
    ];
  },
};
