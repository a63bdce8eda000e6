import type { SlipValue } from './slip.ts';
import type { Maybe } from './sums.ts';

/**
 * What a slip gives, with the sentence that says so; nothing where a value that it rests on is missing.
 *
 * The sentence is put together only when it is asked for, since hardly any of the values will be the stated one.
 */
export function gives(value: Maybe, because: () => string): readonly SlipValue[] {
  if (value === null) return [];
  return [{ value, because }];
}
