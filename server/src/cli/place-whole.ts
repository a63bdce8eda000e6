import { closeSync, fsyncSync, openSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { partName } from './part-name.ts';

/**
 * Puts a whole file in its place at once, over the one that stands there: the new one is written beside it, is on the disk,
 * and only then takes the name. Nobody ever sees a part of it, whenever the process or the machine stops.
 *
 * `mayPlace` sees the file beside before it is moved, and may still say no. Throws what the system says.
 */
export function placeWhole(
  file: string,
  content: string,
  mayPlace: (beside: string) => boolean = () => true,
): void {
  const beside = join(dirname(file), partName());
  // Until it has the rights of the file that it replaces it is nobody else's to read.
  const open = openSync(beside, 'wx', 0o600);
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
