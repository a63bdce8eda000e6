/** One piece of a note that differs from before. */
export interface Change {
  readonly start: number;
  /** Where the changed text ends, in the new note. */
  readonly end: number;
  /** How far what stands behind it has moved. */
  readonly by: number;
}

/** What of a note differs from before: one piece, the rest is alike from both ends. */
export function changeBetween(before: string, now: string): Change {
  const most = Math.min(before.length, now.length);
  const start = alike(most, (from, to) => before.slice(from, to) === now.slice(from, to));
  const rest = alike(
    most - start,
    (from, to) =>
      before.slice(before.length - to, before.length - from) ===
      now.slice(now.length - to, now.length - from),
  );
  return { start, end: now.length - rest, by: now.length - before.length };
}

const CHUNK = 65_536;

/** How many characters are alike, looked at in ever smaller chunks: comparing slices is faster than comparing letters. */
function alike(most: number, isAlike: (from: number, to: number) => boolean): number {
  let count = 0;
  for (let chunk = CHUNK; chunk >= 1; chunk >>= 1) {
    while (count + chunk <= most && isAlike(count, count + chunk)) count += chunk;
  }
  return count;
}
