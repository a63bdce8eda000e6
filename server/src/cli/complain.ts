import { writeSync } from 'node:fs';
import { escapeControls } from './escape-controls.ts';

const STDERR = 2;

/** Says on standard error, in one sentence, what could not be done. */
export function complain(trouble: string): void {
  const line = `leastwise: ${escapeControls(trouble)}\n`;
  if (process.platform === 'win32') {
    process.stderr.write(line);
    return;
  }
  try {
    writeSync(STDERR, line);
  } catch (error) {
    // One that will not wait gets the stream. On a full disk nobody hears it, and the exit status says it all the same.
    if ((error as NodeJS.ErrnoException).code === 'EAGAIN') process.stderr.write(line);
  }
}

/** 0: no errors; 1: errors found; 2: the tool could not do its work. */
export type ExitStatus = 0 | 1 | 2;
