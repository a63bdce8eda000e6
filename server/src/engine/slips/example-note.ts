/** A note with one block of these lines, as the reference shows it. */
export function exampleNote(...lines: readonly string[]): string {
  return ['```measurement', ...lines, '```', ''].join('\n');
}
