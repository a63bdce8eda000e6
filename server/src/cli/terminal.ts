import { fstatSync } from 'node:fs';

/**
 * Whether a person sits behind standard input (0), output (1) or error (2).
 * Most runs write to a pipe or a file, and Node's own answer loads its whole network side: that is asked last.
 */
export async function isTerminal(descriptor: 0 | 1 | 2): Promise<boolean> {
  try {
    if (!fstatSync(descriptor).isCharacterDevice()) return false;
  } catch {
    return false;
  }
  const { isatty } = await import('node:tty');
  return isatty(descriptor);
}

/** How many columns a report on standard output may use; 80 where nobody watches or the terminal does not say. */
export async function outputWidth(): Promise<number> {
  return (await isTerminal(1)) ? process.stdout.columns || 80 : 80;
}
