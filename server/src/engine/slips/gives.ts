import type { SlipValue } from './slip.ts';
import type { Maybe } from './sums.ts';

/** What a slip gives, with the sentence that says so; nothing where a value that it rests on is missing. */
export function gives(value: Maybe, because: string): readonly SlipValue[] {
  return value === null ? [] : [{ value, because }];
}
