/** Says that there are more warnings than `most` allows; null where there are not, or nobody set a bound. */
export function tooManyWarnings(found: number, most: number | null): string | null {
  if (most === null || found <= most) return null;
  const warnings = found === 1 ? 'there is 1 warning' : `there are ${found} warnings`;
  return `${warnings}, and --max-warnings allows ${most === 0 ? 'none' : most}`;
}
