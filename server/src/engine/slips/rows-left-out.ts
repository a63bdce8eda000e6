import * as R from '../rational.ts';
import { cutValue } from './cut-off.ts';
import { exampleNote } from './example-note.ts';
import { gives } from './gives.ts';
import { inWords } from './in-words.ts';
import type { Slip, SlipData, SlipValue } from './slip.ts';
import { difference, same, times } from './sums.ts';

/** A mean that does not take all values, or divides by the wrong number. */
export const rowsLeftOut: Slip = {
  name: 'rows-left-out',
  summary: 'the mean does not take all rows, or divides by a wrong number',
  explanation:
    'A mean takes every value that was written down, also the one that looks bad, and divides by how many there are. Who has a reason to leave a value out strikes it from the table with a remark; then the mean is that of the rest.',
  formula: 'sum of n - 1 values / (n - 1), or sum / (n ± 1), not sum / n',
  example: exampleNote(
    'main scale: 1 cm = 10 MSD',
    'vernier scale: 10 VSD = 9 MSD',
    '| MSR    | VC |',
    '|--------|----|',
    '| 0.4 cm | 6  |',
    '| 0.4 cm | 8  |',
    '| 0.4 cm | 2  |',
    'mean observed reading = 0.47 cm',
    '#                       ^^^^^^^ error wrong-value [rows-left-out]',
  ),
  values(data) {
    const { values } = data;
    if (values.length < 2 || !isOverAll(data.target)) return [];
    // What is only cut off in its last place is no matter of a missing row.
    if (same(cutValue(data), data.stated)) return [];
    return [...(data.target === 'mean absolute error' ? [] : withoutOne(data)), ...wrongNumber(data)];
  },
};

const MOST_ROWS = 12;

function isOverAll(target: string): boolean {
  return target === 'mean' || target.startsWith('mean ');
}

function withoutOne(data: SlipData): readonly SlipValue[] {
  const { values } = data;
  const all = times(data.truth, R.rational(values.length));
  const share = R.rational(1, values.length - 1);
  // Of many rows the last and the first are forgotten most.
  const left = values.length <= MOST_ROWS ? [...values.keys()].reverse() : [values.length - 1, 0];
  return left.flatMap(index => {
    const value = values[index] ?? null;
    return gives(
      times(difference(all, value), share),
      () =>
        `the ${ordinal(index + 1)} value${value === null ? '' : `, ${inWords(data, value)},`} is missing from it; a mean takes ${values.length === 2 ? 'both' : `all ${values.length}`}`,
    );
  });
}

function wrongNumber({ values, truth }: SlipData): readonly SlipValue[] {
  const n = values.length;
  return [n - 1, n + 1].flatMap(by =>
    gives(
      times(truth, R.rational(n, by)),
      () => `the sum of ${n} values was divided by ${by}; divide it by ${n}`,
    ),
  );
}

function ordinal(count: number): string {
  const tens = count % 100;
  const ending = tens >= 11 && tens <= 13 ? 'th' : (['th', 'st', 'nd', 'rd'][count % 10] ?? 'th');
  return `${count}${ending}`;
}
