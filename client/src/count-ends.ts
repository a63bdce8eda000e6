/** A server that ends this often within that time, in milliseconds, would only end again. */
const MOST_ENDS = 5;
const WITHIN = 180_000;

/**
 * What is done about a server that has ended by itself: it is started again, which is said the first time only, until
 * it has ended too often in too short a time; then it is left alone, and that is said.
 */
export type AfterAnEnd = 'start-and-say' | 'start' | 'leave-alone';

/** Counts the ends of one server; to be told of each, with the time in milliseconds. */
export function countEnds(): (now: number) => AfterAnEnd {
  let hasEnded = false;
  let ends: readonly number[] = [];
  return now => {
    ends = [...ends.filter(end => now - end < WITHIN), now];
    if (ends.length >= MOST_ENDS) return 'leave-alone';
    if (hasEnded) return 'start';
    hasEnded = true;
    return 'start-and-say';
  };
}
