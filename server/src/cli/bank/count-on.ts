import type { CountOn } from './progress-bar.ts';

/** So many at a time that nobody notices it, so few that the checking goes on. */
const AT_A_TIME = 2000;

/** Counts what is found, a piece each time it is called; whatever keeps it from counting leaves the number unknown. */
export function countOn(find: () => AsyncIterable<{ readonly kind: string }>): CountOn {
  let founds: AsyncIterator<{ readonly kind: string }> | null = null;
  let count = 0;
  let isCounted = false;
  return async () => {
    founds ??= find()[Symbol.asyncIterator]();
    for (let at = 0; at < AT_A_TIME && !isCounted; at++) {
      const next = await founds.next();
      if (next.done) isCounted = true;
      else if (next.value.kind !== 'trouble') count++;
    }
    return isCounted ? count : null;
  };
}
