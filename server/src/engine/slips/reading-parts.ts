import { isPlain } from '../dimension.ts';
import * as Q from '../quantity.ts';
import * as R from '../rational.ts';
import * as S from '../scalar.ts';
import type { SlipData } from './slip.ts';
import { difference, type Maybe, product, same, sum } from './sums.ts';

/** The observed reading as a coarse mark and what the fine scale adds to it. */
export interface ReadingParts {
  readonly reading: Q.Quantity;
  /** The last mark passed; where a vernier reads on, with the division of the drum that was just passed. */
  readonly mark: Q.Quantity;
  /** What the fine scale adds: reading - mark. */
  readonly part: Q.Quantity;
  /** The division in line or on the line, a number. */
  readonly line: Q.Quantity;
  readonly leastCount: Q.Quantity;
}

/** The right reading taken apart; null for a claim about something else, and where a part is open. */
export function readingParts(data: SlipData): ReadingParts | null {
  const reading = rightReading(data);
  if (reading === null) return null;
  const mark = coarseMark(data, reading);
  const part = difference(reading, mark);
  const line = data.value(data.vernier === 'none' ? 'circular scale reading' : 'coinciding division');
  const leastCount = data.value('least count');
  if (mark === null || part === null || line === null || leastCount === null) return null;
  return { reading, mark, part, line, leastCount };
}

/** Mark + line × step: the reading as a rule makes it that need not hold. */
export function readingWith(mark: Maybe, line: Maybe, step: Maybe): Maybe {
  return sum(mark, product(line, step));
}

/** The observed reading behind the claim; null where the claim is none of a reading. */
export function rightReading(data: SlipData): Maybe {
  switch (data.target) {
    case 'observed reading':
      return data.truth;
    case 'corrected reading':
    case 'vernier scale reading':
      return data.value('observed reading');
    default:
      return null;
  }
}

/** What a wrong observed reading makes of the claim: less the zero error, or less the mark; null for other claims. */
export function claimFrom(data: SlipData, reading: Maybe): Maybe {
  switch (data.target) {
    case 'observed reading':
      return reading;
    case 'corrected reading':
      // Where the right reading is put in, another part of the claim went wrong.
      return putsIn(data, data.value('observed reading'))
        ? null
        : difference(reading, data.value('zero error'));
    case 'vernier scale reading': {
      const right = data.value('observed reading');
      return difference(reading, right && coarseMark(data, right));
    }
    default:
      return null;
  }
}

/** Whether a value stands in the formula of the claim: 4.81 in `4.81 - 0.46`. */
function putsIn({ numbers, stated }: SlipData, value: Maybe): boolean {
  const number = value && stated.unit && Q.inUnit(value, stated.unit);
  return numbers.some(
    put => same(put, value) || (number && isPlain(put.dimension) && S.equals(put.scalar, number)),
  );
}

/** What the vernier slides along, one division of it: S, or a division of the drum. */
export function baseDivision(data: SlipData): Maybe {
  return data.value(data.vernier === 'on drum' ? 'circular scale division' : 'main scale division');
}

/** The whole turns that were counted, a number; null where a linear scale is read instead. */
export function countedTurns(data: SlipData): Maybe {
  const turns = data.value('full rotations');
  if (turns !== null) return turns;
  const hand = data.value('linear scale reading');
  return hand !== null && isPlain(hand.dimension) ? hand : null;
}

/** The mark on the linear scale, or the turns made a length. */
export function linearMark(data: SlipData): Maybe {
  const turns = data.value('full rotations');
  if (turns !== null) return product(turns, data.value('pitch'));
  return markOf(data.value('linear scale reading'), data.value('linear scale division'));
}

/** The mark from which the divisions of the drum count: the last one with its zero on the line, not each that a turn passes. */
export function turnMark(data: SlipData): Maybe {
  const mark = linearMark(data);
  return (mark && lastMark(mark, data.value('pitch'))) ?? mark;
}

function coarseMark(data: SlipData, reading: Q.Quantity): Maybe {
  switch (data.vernier) {
    case 'on main scale':
      return (
        markOf(data.value('main scale reading'), data.value('main scale division')) ??
        lastMark(reading, data.value('main scale division'))
      );
    case 'on drum': {
      const drum = data.value('circular scale reading');
      const passed = drum && S.floor(drum.scalar);
      return sum(
        linearMark(data),
        product(passed === null ? null : Q.plain(passed), data.value('circular scale division')),
      );
    }
    case 'none':
      return data.isScrew ? linearMark(data) : null;
  }
}

/** A mark recorded as a length, or as a count of divisions. */
function markOf(recorded: Maybe, division: Maybe): Maybe {
  return recorded !== null && isPlain(recorded.dimension) ? product(recorded, division) : recorded;
}

/** The last mark before a position: what is left over beside whole divisions is taken off. */
function lastMark(reading: Q.Quantity, division: Maybe): Maybe {
  if (division === null || S.compare(division.scalar, S.real(R.ZERO)) !== 1) return null;
  const rest = Q.mod(reading, division);
  return rest.ok ? difference(reading, rest.quantity) : null;
}
