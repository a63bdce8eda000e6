import { isTerminal } from '../terminal.ts';
import { progressLine } from './progress-line.ts';

/** What a person sees of a long run while it lasts. */
export interface ProgressBar {
  /** One more note is done. */
  readonly step: () => Promise<void> | undefined;
  /** Takes the line off the terminal, before something else is written there and at the end. */
  readonly clear: () => void;
}

/** Counts on for a while; gives the whole number once it is known, null till then. */
export type CountOn = () => Promise<number | null>;

/** A run that takes less is over before a person looks for a bar; in milliseconds. */
const LONG = 1500;
const BETWEEN = 100;

const NONE: ProgressBar = { step: () => undefined, clear: () => undefined };

/** A bar on standard error for long runs, where a person sits behind it. */
export async function progressBar(countOn: CountOn): Promise<ProgressBar> {
  if (!(await isTerminal(2)) || process.env.TERM === 'dumb') return NONE;
  const { stderr } = process;
  let done = 0;
  let drawn = false;
  let next = performance.now() + LONG;
  const draw = async () => {
    const whole = await countOn();
    // The last column stays free: some terminals go to the next line when it is filled.
    stderr.write(`\r${progressLine({ done, whole }, (stderr.columns || 80) - 1)}\x1b[K`);
    drawn = true;
    next = performance.now() + BETWEEN;
  };
  return {
    step: () => {
      done++;
      return performance.now() < next ? undefined : draw();
    },
    clear: () => {
      if (drawn) stderr.write('\r\x1b[K');
      drawn = false;
    },
  };
}
