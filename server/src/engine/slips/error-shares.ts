import * as Q from '../quantity.ts';
import * as R from '../rational.ts';
import type { SlipData } from './slip.ts';
import { type Maybe, product, quotient, sum } from './sums.ts';

/** One measured thing's share in the claimed error, in the kind that is claimed: absolute, relative or per cent. */
export interface ErrorShare {
  readonly size: NonNullable<Maybe>;
  /** The power's size; null where the formula is no product of powers. */
  readonly power: R.Rational | null;
  /** The share without any power. */
  readonly once: NonNullable<Maybe>;
}

const ADDED_UP = new Set(['absolute error', 'relative error', 'percentage error']);
const SQUARED = new Set(['standard uncertainty', 'expanded uncertainty']);
const MOST_SHARES = 8;

/** Whether the errors of a claim add up as they are, or by their squares; null for a claim that is no error. */
export function combination(data: SlipData): 'sum' | 'squares' | null {
  return ADDED_UP.has(data.target) ? 'sum' : SQUARED.has(data.target) ? 'squares' : null;
}

/** The shares, scaled so that together they make the right error; none where the data have none. */
export function errorShares(data: SlipData): readonly ErrorShare[] {
  const { errorTerms, truth } = data;
  const how = combination(data);
  if (how === null || errorTerms.length === 0 || errorTerms.length > MOST_SHARES) return [];
  const sizes = errorTerms.map(term => term.size);
  const scale = quotient(truth, how === 'sum' ? sum(...sizes) : rootOfSquares(sizes));
  return errorTerms.flatMap(({ size, power, once }) => {
    const [share, without] = [product(scale, size), product(scale, once)];
    if (share === null || without === null) return [];
    const unit = truth.unit;
    return [{ size: { ...share, unit }, power: power && R.abs(power), once: { ...without, unit } }];
  });
}

/** The shares put together again, as the claim's kind of error is. */
export function combined(data: SlipData, sizes: readonly Maybe[]): Maybe {
  return combination(data) === 'squares' ? rootOfSquares(sizes) : sum(...sizes);
}

function rootOfSquares(sizes: readonly Maybe[]): Maybe {
  const squares = sum(...sizes.map(size => product(size, size)));
  const root = squares && Q.sqrt(squares);
  return root?.ok ? root.quantity : null;
}
