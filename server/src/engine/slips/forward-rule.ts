import * as Q from '../quantity.ts';
import * as R from '../rational.ts';
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
    return gives(value, meaningOfLine(data, parts, vernier) + offer(data, parts, vernier, base));
  },
};

/** What the line in line really stands for. */
function meaningOfLine(data: SlipData, parts: ReadingParts, vernier: Q.Quantity): string {
  const { reading, mark, line, leastCount } = parts;
  const n = numberWords(line);
  const rest = data.count === null ? null : difference(Q.plain(data.count), line);
  if (rest !== null && data.count !== null && same(readingWith(mark, rest, leastCount), reading)) {
    const runs = data.runsBackward
      ? 'the shorter division and backward numbers'
      : 'the longer division and forward numbers';
    const count = numberWords(data.count);
    return `on a vernier with ${runs} line ${n} stands for ${count} - ${n} = ${numberWords(rest)} least counts, ${inWords(data, mark)} + ${numberWords(rest)} × ${inWords(data, leastCount)}`;
  }
  const along = product(line, vernier);
  const end = data.runsBackward ? difference(reading, along) : sum(reading, along);
  const way = data.runsBackward ? '-' : '+';
  const lands =
    end === null
      ? ''
      : `, ${inWords(data, reading)} ${way} ${n} × ${inWords(data, vernier)} = ${inWords(data, end)}`;
  return `on this vernier line ${n} does not stand for ${n} least counts; the right reading is the one from which ${n} vernier divisions lead to a main mark${lands}`;
}

/** A longer division that runs forward is mostly a record that forgot to say backward. */
function offer(data: SlipData, parts: ReadingParts, vernier: Q.Quantity, base: Q.Quantity): string {
  if (data.runsBackward || Q.compare(vernier, base) !== 1) return '';
  const gap = product(parts.line, difference(vernier, parts.leastCount));
  const rest = gap && S.modulo(gap.scalar, base.scalar);
  const holdsBackward = rest !== null && S.compare(rest, S.real(R.ZERO)) === 0;
  return holdsBackward ? '; if its numbers run the other way, record that with `vernier runs: backward`' : '';
}
