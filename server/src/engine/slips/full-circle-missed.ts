import * as Q from '../quantity.ts';
import * as R from '../rational.ts';
import { unitWord } from '../unit.ts';
import { exampleNote } from './example-note.ts';
import { gives } from './gives.ts';
import { inWords, numberWords } from './in-words.ts';
import { claimFrom, rightReading } from './reading-parts.ts';
import type { Slip, SlipData, SlipValue } from './slip.ts';
import { difference, type Maybe, opposite, product, same, size, sum, times } from './sums.ts';

const CIRCLE = Q.quantity(R.rational(360), unitWord('deg')!);
const NO_ANGLE = Q.quantity(R.ZERO, unitWord('deg')!);
const TURNED = new Set([
  'own',
  'observed reading',
  'corrected reading',
  'mean',
  'mean observed reading',
  'mean corrected reading',
]);

/** The zero of a circle or of a disc was passed on the way and not reckoned with. */
export const fullCircleMissed: Slip = {
  name: 'full-circle-missed',
  summary: 'the zero of the circle was passed on the way, and a full circle is missing or too many',
  explanation:
    'A circle begins again at its zero. From 341° to 19° it is 38° and not 322°: where the zero lies between two readings, 360° are added to the smaller one before they are subtracted. A disc with 100 divisions is the same with 100: from 92 to 15 it has turned by 23.',
  formula: 'b - a, not b - a + 360°',
  example: exampleNote(
    'a: 341° 10′',
    'b: 19° 52′',
    'deviation D = mod(b - a, 360°) = 321° 18′',
    '#                                ^^^^^^^^ error wrong-value [full-circle-missed]',
  ),
  values(data) {
    if (data.value('final circular reading') !== null) return onDisc(data);
    if (data.truth.dimension.angle !== 1 || !TURNED.has(data.target)) return [];
    const { truth } = data;
    if (data.values.length > 1) return ofReadings(data);
    const other = opposite(difference(truth, CIRCLE));
    const before = 'the zero of the circle lies between the two readings, so';
    return [
      ...gives(other, () => `${before} the difference has to be taken from 360°`),
      ...gives(difference(truth, CIRCLE), () => `${before} 360° have to be added`),
      ...gives(sum(truth, CIRCLE), () =>
        isNegative(truth, NO_ANGLE)
          ? `${before} 360° would have to be added, which the formula does not do`
          : 'a full circle is too much; take 360° off',
      ),
    ];
  },
};

/** A mean of readings on both sides of the zero, those before it taken as they are read there. */
function ofReadings({ values }: SlipData): readonly SlipValue[] {
  const read = values.map(value => (isNegative(value, NO_ANGLE) ? sum(value, CIRCLE) : value));
  if (read.every((value, index) => value === values[index])) return [];
  return gives(
    times(sum(...read), R.rational(1, read.length)),
    () => 'the readings lie on both sides of the zero of the circle, so those before it count as negative',
  );
}

/** A disc read before and after, with the zero between both readings. */
function onDisc(data: SlipData): readonly SlipValue[] {
  const reading = rightReading(data);
  const initial = data.value('initial circular reading');
  const final = data.value('final circular reading');
  const leastCount = data.value('least count');
  const turns = product(data.value('full rotations'), data.value('pitch')) ?? zeroLike(reading);
  if (reading === null || initial === null || final === null || data.count === null) return [];
  const lot = Q.plain(data.count);
  for (const [from, to] of [
    [initial, final],
    [final, initial],
  ] as const) {
    const rise = difference(to, from);
    const moved = product(sum(rise, lot), leastCount);
    if (rise === null || !same(sum(turns, moved), reading) || !isNegative(rise)) continue;
    // Half a turn is the same both ways, so that nobody can tell whether the zero was passed.
    if (same(times(size(rise), R.TWO), lot)) continue;
    const because = (): string => {
      const divisions = numberWords(sum(rise, lot) ?? rise);
      const [count, first, last] = [lot, from, to].map(numberWords);
      return `the disc passed its zero between ${numberWords(initial)} and ${numberWords(final)}, so ${count} + ${last} - ${first} = ${divisions} divisions count, ${inWords(data, moved ?? rise)}`;
    };
    return [rise, size(rise)].flatMap(wrong =>
      gives(claimFrom(data, sum(turns, product(wrong, leastCount))), because),
    );
  }
  return [];
}

function zeroLike(reading: Maybe): Maybe {
  return difference(reading, reading);
}

function isNegative(rise: Q.Quantity, nought: Q.Quantity = Q.plain(R.ZERO)): boolean {
  return Q.compare(rise, nought) === -1;
}
