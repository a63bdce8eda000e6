import * as R from '../rational.ts';
import * as S from '../scalar.ts';
import { baseDivision } from './reading-parts.ts';
import type { SlipData } from './slip.ts';
import { quotient } from './sums.ts';

/** How many divisions of the scale beside it the whole vernier spans: 7 for 10 VSD = 7 MSD; null where that is no number. */
export function vernierSpan(data: SlipData): R.Rational | null {
  if (data.count === null) return null;
  const ratio = quotient(data.value('vernier scale division'), baseDivision(data));
  const number = ratio && S.realValue(ratio.scalar);
  return number && R.multiply(number, data.count);
}
