import { escapeControls } from './escape-controls.ts';

/** Says on standard error, in one sentence, what could not be done. */
export function complain(trouble: string): void {
  process.stderr.write(`leastwise: ${escapeControls(trouble)}\n`);
}

/** 0: no errors; 1: errors found; 2: the tool could not do its work. */
export type ExitStatus = 0 | 1 | 2;
