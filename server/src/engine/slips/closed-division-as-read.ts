import * as Q from '../quantity.ts';
import * as R from '../rational.ts';
import * as S from '../scalar.ts';
import { exampleNote } from './example-note.ts';
import { gives } from './gives.ts';
import { inWords, numberWords, withSign } from './in-words.ts';
import type { Slip, SlipData, SlipValue } from './slip.ts';
import { difference, type Maybe, opposite, same, size, sum, times } from './sums.ts';
import { zeroCheck } from './zero-check.ts';

/** The division of the closed position counted from the wrong end. */
export const closedDivisionAsRead: Slip = {
  name: 'closed-division-as-read',
  summary: 'division k was counted where N - k is meant in the closed position, or the other way round',
  explanation:
    'Where the closed instrument stands short of nought, the fine scale has not come round to its zero: with k in line, N - k divisions are missing, and the zero error is -(N - k) least counts. Where it stands past nought, k counts as it is read. Look first on which side of nought the zero stands, then count.',
  formula: 'zero error = k × LC, not -(N - k) × LC',
  example: exampleNote(
    'pitch: 1 mm',
    'circular scale: 100 divisions',
    'closed: circular zero above the line, division 96',
    'zero error = 96 × 0.01 mm = 0.96 mm',
    '#            ^^^^^^^^^^^^ error wrong-value [closed-division-as-read]',
  ),
  values(data) {
    const zeroError = zeroErrorBehind(data);
    if (zeroError === null) return [];
    return wrongErrors(data, zeroError).flatMap(({ value, because }) =>
      gives(claimWith(data, zeroError, value), because),
    );
  },
};

/** The zero error that a claim states or rests on; null for other claims, and where no closed position is recorded. */
function zeroErrorBehind(data: SlipData): Maybe {
  if (data.closed === null) return null;
  if (data.target === 'zero error') return data.truth;
  if (data.target === 'zero correction') return opposite(data.truth);
  return zeroCheck(data)?.zeroError ?? null;
}

/** What a wrong zero error makes of the claim. */
function claimWith(data: SlipData, zeroError: Q.Quantity, wrong: Q.Quantity): Maybe {
  if (data.target === 'zero error') return wrong;
  return data.target === 'zero correction' ? opposite(wrong) : sum(data.truth, difference(zeroError, wrong));
}

function wrongErrors(data: SlipData, zeroError: Q.Quantity): readonly SlipValue[] {
  const division = data.closed?.division ?? null;
  const leastCount = data.value('least count');
  if (division === null || data.closed === null || leastCount === null) return [];
  if (data.closed.vernierDivision !== null) return roundTheDrum(data, zeroError);
  const rest = data.count && R.subtract(data.count, division);
  const asRead = times(leastCount, division);
  const fromEnd = rest && times(leastCount, rest);
  const right = size(zeroError);
  if (same(right, fromEnd))
    return eitherSign(asRead, right, () => shortOfZero(data, zeroError, division, rest, leastCount));
  if (same(right, asRead))
    return eitherSign(fromEnd, right, () => pastZero(data, zeroError, division, leastCount));
  // Several checks have a mean, which no single division makes.
  return isOddVernier(data) ? eitherSign(asRead, right, () => oddVernier(data, zeroError, division)) : [];
}

/** A count that is the right one anyway makes no slip: then only the sign is wrong. */
function eitherSign(counted: Maybe, right: Maybe, because: () => string): readonly SlipValue[] {
  if (same(counted, right)) return [];
  return [...gives(counted, because), ...gives(opposite(counted), because)];
}

/** With a vernier on the drum the position as read is a whole turn away from the right one. */
function roundTheDrum(data: SlipData, zeroError: Q.Quantity): readonly SlipValue[] {
  const pitch = data.value('pitch');
  const counted = S.sign(zeroError.scalar) === -1 ? sum(zeroError, pitch) : difference(zeroError, pitch);
  const because = (): string =>
    `the division was counted from the wrong end; the closed screw stands ${inWords(data, size(zeroError) ?? zeroError)} from nought, so the zero error is ${withSign(data, zeroError)}`;
  return eitherSign(counted, size(zeroError), because);
}

function shortOfZero(
  data: SlipData,
  zeroError: Q.Quantity,
  division: R.Rational,
  rest: R.Rational | null,
  leastCount: Q.Quantity,
): string {
  const [k, N, left] = [division, data.count, rest].map(number =>
    number === null ? '' : numberWords(number),
  );
  const minus = S.sign(zeroError.scalar) === -1 ? '-' : '';
  const where = minus === '' ? 'with this vernier' : 'short of nought';
  const which = data.target === 'zero error' ? '' : ' of the closed position';
  return `division ${k}${which} was counted as it is read, but ${where} ${N} - ${k} = ${left} divisions count, so the zero error is ${minus}${left} × ${inWords(data, leastCount)}`;
}

function pastZero(
  data: SlipData,
  zeroError: Q.Quantity,
  division: R.Rational,
  leastCount: Q.Quantity,
): string {
  const k = numberWords(division);
  const minus = S.sign(zeroError.scalar) === -1 ? '-' : '';
  return `${k} was taken from ${data.count === null ? 'N' : numberWords(data.count)}, but here the ${k} divisions count as they are, so the zero error is ${minus}${k} × ${inWords(data, leastCount)}`;
}

function oddVernier(data: SlipData, zeroError: Q.Quantity, division: R.Rational): string {
  const k = numberWords(division);
  return `on this vernier line ${k} does not stand for ${k} least counts; the closed position is the one from which ${k} vernier divisions lead to a main mark, ${withSign(data, zeroError)}`;
}

function isOddVernier(data: SlipData): boolean {
  if (data.vernier !== 'on main scale') return false;
  const step = size(difference(data.value('main scale division'), data.value('vernier scale division')));
  const leastCount = data.value('least count');
  return step !== null && leastCount !== null && !Q.equals(step, leastCount);
}
