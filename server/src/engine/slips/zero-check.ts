import type { Quantity } from '../quantity.ts';
import * as S from '../scalar.ts';
import type { SlipData } from './slip.ts';
import { opposite, sum } from './sums.ts';

/** A corrected reading taken apart: what was read, and the zero error in it. */
export interface ZeroCheck {
  readonly observed: Quantity;
  readonly zeroError: Quantity;
}

/** The zero error and the reading it is taken off, of a corrected reading or a mean of them; null for other claims. */
export function zeroCheck(data: SlipData): ZeroCheck | null {
  if (data.target !== 'corrected reading' && data.target !== 'mean corrected reading') return null;
  const zeroError = zeroErrorOf(data);
  const observed = sum(data.truth, zeroError);
  return observed === null || zeroError === null || S.isZero(zeroError.scalar)
    ? null
    : { observed, zeroError };
}

/** The zero error, also where only the correction is given. */
function zeroErrorOf(data: SlipData): Quantity | null {
  return data.value('zero error') ?? opposite(data.value('zero correction'));
}
