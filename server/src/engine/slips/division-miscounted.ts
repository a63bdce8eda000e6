import * as Q from '../quantity.ts';
import * as S from '../scalar.ts';
import { exampleNote } from './example-note.ts';
import { gives } from './gives.ts';
import { inWords, numberWords } from './in-words.ts';
import { baseDivision, claimFrom, rightReading } from './reading-parts.ts';
import type { Slip, SlipData } from './slip.ts';
import { difference, type Maybe, size, sum } from './sums.ts';

/** The division in line or on the line counted wrongly by one. */
export const divisionMiscounted: Slip = {
  name: 'division-miscounted',
  summary: 'the coinciding or circular division was counted wrongly by one',
  explanation:
    'Neighbouring lines of a vernier look much alike. Count from the nearest long line, and compare the line with both of its neighbours: they must be off by the same amount to either side. On a drum, look straight at the line, not from above or below.',
  formula: '(n ± 1) × LC, not n × LC',
  example: exampleNote(
    'main scale: 1 MSD = 1°',
    'vernier scale: 12 VSD = 23 MSD',
    'main scale reading: 72°',
    'coinciding division: 9',
    'observed reading = 72° 40′',
    '#                  ^^^^^^^ error wrong-value [division-miscounted]',
  ),
  values(data) {
    const isZero =
      data.target === 'zero error' || (data.target === 'zero correction' && data.closed !== null);
    const line = isZero
      ? null
      : data.value(data.vernier === 'none' ? 'circular scale reading' : 'coinciding division');
    const reading = isZero ? data.truth : rightReading(data);
    if (reading === null || (!isZero && line === null)) return [];
    const hasNoneBefore = line !== null && S.isZero(line.scalar);
    return stepsOf(data).flatMap(step => {
      const because = (): string => `${offByOne(data, step, isZero)}, and each counts ${inWords(data, step)}`;
      const wrong = [sum(reading, step), hasNoneBefore ? null : difference(reading, step)];
      return wrong.flatMap(value => gives(isZero ? value : claimFrom(data, value), because));
    });
  },
};

/** The scale whose division makes such a step: on a drum with a vernier the drum's own, or the vernier's. */
function offByOne(data: SlipData, step: Q.Quantity, isZero: boolean): string {
  if (isZero) return 'the divisions of the closed position were miscounted by one';
  const drum = data.vernier === 'on drum' ? baseDivision(data) : null;
  const onDrum = data.vernier === 'none' || (drum !== null && Q.equals(step, drum));
  const which = onDrum ? 'division on the line' : 'coinciding division';
  const line = data.value(onDrum ? 'circular scale reading' : 'coinciding division');
  return `the ${which} was miscounted by one${line === null ? '' : `; it is ${numberWords(line)}`}`;
}

/** What one division makes: the least count, on a vernier what V is short of a mark, on a drum with vernier its division too. */
function stepsOf(data: SlipData): readonly Q.Quantity[] {
  const base = baseDivision(data);
  const short = data.vernier === 'none' ? null : shortOfMark(base, data.value('vernier scale division'));
  const steps: Maybe[] = [short ?? data.value('least count')];
  if (data.vernier === 'on drum') steps.push(base);
  return steps.filter(
    (step, index): step is Q.Quantity =>
      step !== null && !steps.slice(0, index).some(other => other !== null && Q.equals(other, step)),
  );
}

/** How far one vernier division ends from the nearest mark. */
function shortOfMark(base: Maybe, vernier: Maybe): Maybe {
  const rest = base && vernier && S.modulo(vernier.scalar, base.scalar);
  if (base === null || rest === null) return null;
  const past: Q.Quantity = { ...base, scalar: rest };
  const short = difference(base, past);
  return short !== null && Q.compare(short, past) === -1 ? short : size(past);
}
