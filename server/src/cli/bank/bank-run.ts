import { countOn } from './count-on.ts';
import { interruption } from './interruption.ts';
import { type Dealt, type Helper, noteShares } from './note-shares.ts';
import type { Found } from './note-tasks.ts';
import { type NoteJob, noteWork } from './note-work.ts';
import { progressBar } from './progress-bar.ts';
import type { ThreadHelper } from './thread-helpers.ts';

export interface RunChoice {
  /** How many notes are dealt with at a time; null where the run itself should see what pays. */
  readonly jobs: number | null;
  /** Finds the same notes once more, without those that can be read but once: so that they can be counted. */
  readonly countable: () => AsyncIterable<{ readonly kind: string }>;
}

/** A run over many notes, as seen by whoever makes reports of it. */
export interface BankRun {
  /** What came of each note, in the order of the report; it ends early where somebody interrupts it. */
  readonly dealt: AsyncIterable<Dealt>;
  readonly wasInterrupted: () => boolean;
  /** To be called before anything else is written to the terminal. */
  readonly clearTerminal: () => void;
}

/**
 * How many blocks this thread checks before it calls for help. A further thread must load the program and warm up,
 * which costs the time of about 500 notes of three blocks, and it costs a third more memory: only a run that has shown
 * itself to be a long one gains enough by it.
 */
const WORTH_HELP = 8000;

const NOBODY: readonly ThreadHelper[] = [];

/** Deals with notes on as many threads as pay, with a bar where a person watches, until all are done or Ctrl-C is hit. */
export async function bankRun(
  founds: AsyncIterable<Found>,
  job: NoteJob,
  { jobs, countable }: RunChoice,
): Promise<BankRun> {
  const stop = interruption();
  const work = await noteWork(job);
  const bar = await progressBar(countOn(countable));
  let blocks = 0;
  let threads: readonly ThreadHelper[] | null = jobs === 1 ? NOBODY : null;
  const helpers = async (): Promise<readonly Helper[]> => {
    if (threads !== null || (jobs === null && blocks < WORTH_HELP)) return threads ?? NOBODY;
    const { threadHelpers, usualJobs } = await import('./thread-helpers.ts');
    threads ??= threadHelpers((jobs ?? usualJobs()) - 1, job);
    return threads;
  };
  return {
    dealt: dealt(),
    wasInterrupted: stop.isAsked,
    clearTerminal: bar.clear,
  };

  async function* dealt(): AsyncGenerator<Dealt> {
    try {
      for await (const each of noteShares(heeding(), { work, helpers, isStopped: stop.isAsked })) {
        yield each;
        if (each.kind === 'trouble') continue;
        blocks += each.share.counts?.blocks ?? 0;
        await bar.step();
      }
    } finally {
      bar.clear();
      stop.forget();
      for (const thread of threads ?? NOBODY) thread.end();
    }
  }

  /** Waiting for standard input the process may end as any other does: there is nothing to bring to an end. */
  async function* heeding(): AsyncGenerator<Found> {
    for await (const found of founds) {
      stop.heed();
      yield found;
    }
  }
}
