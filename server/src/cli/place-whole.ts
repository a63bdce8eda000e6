import { closeSync, fsyncSync, openSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { partName } from './part-name.ts';

/**
 * Puts a whole file in its place at once, over the one that stands there: the new one is written beside it, is on the disk,
 * and only then takes the name. Nobody ever sees a part of it, whenever the process or the machine stops.
 *
 * Throws what the system says.
 */
export function placeWhole(
  file: string,
  content: string,
  { mode = 0o600, mayPlace = () => true }: Placing = {},
): void {
  const beside = join(dirname(file), partName());
  const open = openSync(beside, 'wx', mode);
  try {
    try {
      writeFileSync(open, content);
      fsyncSync(open);
    } finally {
      closeSync(open);
    }
    if (mayPlace(beside)) {
      renameSync(beside, file);
      return;
    }
  } catch (error) {
    rmSync(beside, { force: true });
    throw error;
  }
  rmSync(beside, { force: true });
}

export interface Placing {
  /** The rights of the new file, from which the system may take some; without them it is nobody else's to read. */
  readonly mode?: number;
  /** Sees the file beside before it is moved, and may still say no. */
  readonly mayPlace?: (beside: string) => boolean;
}
