import * as Q from '../quantity.ts';
import * as S from '../scalar.ts';
import { exampleNote } from './example-note.ts';
import { gives } from './gives.ts';
import { inWords, numberWords } from './in-words.ts';
import { baseDivision, claimFrom, type ReadingParts, readingParts, readingWith } from './reading-parts.ts';
import type { Slip, SlipData } from './slip.ts';
import { difference, product, same, sum } from './sums.ts';

/** MSR + n × LC on a vernier on which line n does not stand for n least counts. */
export const forwardRule: Slip = {
  name: 'forward-rule',
  summary: 'MSR + n × LC on a vernier for which it does not hold',
  explanation:
    "Line n stands for n least counts only where the vernier's division is a little shorter than the main one and its numbers run forward, or a little longer and they run backward. With the longer division and forward numbers it stands for N - n least counts, and on a vernier such as 10 VSD = 7 MSD for neither. The reading that always holds is the one that, with n vernier divisions put on, comes to a mark of the main scale: x + n × V = m × S. Most verniers with the longer division are numbered backward; record it (`vernier runs: backward`), and the rule holds.",
  formula: 'reading = MSR + n × LC, not the x for which x + n × V = m × S',
  example: exampleNote(
    'main scale: 1 MSD = 1 mm',
    'vernier scale: 10 VSD = 11 MSD',
    'main scale reading: 14 mm',
    'coinciding division: 3',
    'observed reading = 14.3 mm',
    '#                  ^^^^^^^ error wrong-value [forward-rule]',
  ),
  values(data) {
    if (data.vernier === 'none') return [];
    const parts = readingParts(data);
    const vernier = data.value('vernier scale division');
    const base = baseDivision(data);
    if (parts === null || vernier === null || base === null) return [];
    const value = claimFrom(data, readingWith(parts.mark, parts.line, parts.leastCount));
    return gives(value, () => meaningOfLine(data, parts, vernier, base));
  },
};

/** What the line in line really stands for. */
function meaningOfLine(data: SlipData, parts: ReadingParts, vernier: Q.Quantity, base: Q.Quantity): string {
  const { reading, mark, part, line, leastCount } = parts;
  const n = numberWords(line);
  const { count, runsBackward } = data;
  const left = count && difference(Q.plain(count), line);
  // Where the lines say the same again, fewer may be meant.
  if (left !== null && countsDown(data, vernier, base, leastCount) && same(product(left, leastCount), part)) {
    const rest = numberWords(left);
    const means = `line ${n} stands for ${numberWords(count!)} - ${n} = ${rest} least counts, ${inWords(data, mark)} + ${rest} × ${inWords(data, leastCount)}`;
    // A longer division that runs forward is mostly a record that forgot to say backward.
    return runsBackward
      ? `on a vernier with the shorter division and backward numbers ${means}`
      : `on a vernier with the longer division and forward numbers ${means}; if its numbers run the other way, record that with \`vernier runs: backward\``;
  }
  const along = product(line, vernier);
  const end = runsBackward ? difference(reading, along) : sum(reading, along);
  const way = runsBackward ? '-' : '+';
  const lands =
    end === null
      ? ''
      : `, ${inWords(data, reading)} ${way} ${n} × ${inWords(data, vernier)} = ${inWords(data, end)}`;
  return `on this vernier line ${n} does not stand for ${n} least counts; the right reading is the one from which ${n} vernier divisions lead to a main mark${lands}`;
}

/** Whether each line counts one least count less than the one before: its division goes past whole ones by just that. */
function countsDown(data: SlipData, vernier: Q.Quantity, base: Q.Quantity, leastCount: Q.Quantity): boolean {
  const whole = data.runsBackward ? sum(vernier, leastCount) : difference(vernier, leastCount);
  const rest = whole && S.modulo(whole.scalar, base.scalar);
  return rest !== null && S.isZero(rest);
}
