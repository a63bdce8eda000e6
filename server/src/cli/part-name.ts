import { randomBytes } from 'node:crypto';
import { readdirSync, rmSync, statSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';

/**
 * A name for a file that is being written, which nobody else takes: it says on which machine, and by which process. With
 * its dot before and its ending it is no note, and it is short whatever the note is called.
 */
export function partName(): string {
  return `.leastwise-${thisMachine()}-${process.pid}-${randomBytes(6).toString('hex')}.part`;
}

const PART = /^\.leastwise-(\w*)-(\d+)-[0-9a-f]{12}\.part$/;

/** Whatever has not changed for so long was left behind, by a machine that is not here to be asked; in milliseconds. */
const SURELY_LEFT = 24 * 3_600_000;

/**
 * Takes away what runs that were killed have left in a folder: files of processes of this machine that are gone, and
 * what is too old to be at work. Whatever cannot be taken away stays; it harms nobody.
 */
export function removeLeftParts(folder: string): void {
  try {
    for (const name of readdirSync(folder)) {
      const [, machine, pid] = PART.exec(name) ?? [];
      if (machine === undefined) continue;
      const path = join(folder, name);
      const isOfTheDead = machine === thisMachine() && isGone(Number(pid));
      if (isOfTheDead || statSync(path).mtimeMs < Date.now() - SURELY_LEFT) rmSync(path, { force: true });
    }
  } catch {
    // Another run may be clearing up as well.
  }
}

function thisMachine(): string {
  return hostname().replace(/\W/g, '').slice(0, 40);
}

function isGone(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return false;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'ESRCH';
  }
}
