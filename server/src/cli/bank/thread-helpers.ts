import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import type { Helper } from './note-shares.ts';
import type { NoteJob, NoteShare } from './note-work.ts';

/** A helper that is a thread of its own. */
export interface ThreadHelper extends Helper {
  readonly end: () => void;
}

/** More threads than this read a disk no faster, and each costs its memory. */
const MOST_UNASKED = 8;

/** How many notes are dealt with at a time where nobody says: as many as there are cores. */
export function usualJobs(): number {
  return Math.min(availableParallelism(), MOST_UNASKED);
}

/**
 * Starts threads that deal with notes as this one does. A thread that cannot be started, or dies, rejects what it was
 * given and says nothing else: the notes are dealt with all the same.
 */
export function threadHelpers(count: number, job: NoteJob): readonly ThreadHelper[] {
  return Array.from({ length: count }, () => threadHelper(job));
}

interface Waiting {
  readonly resolve: (shares: readonly NoteShare[]) => void;
  readonly reject: (reason: unknown) => void;
}

function threadHelper(job: NoteJob): ThreadHelper {
  const waiting: Waiting[] = [];
  let isGone = false;
  const worker = new Worker(new URL('../bin/note-thread.js', import.meta.url), { workerData: job });
  const gone = (reason: unknown) => {
    isGone = true;
    for (const each of waiting.splice(0)) each.reject(reason);
  };
  worker.on('message', (shares: readonly NoteShare[]) => waiting.shift()?.resolve(shares));
  worker.on('messageerror', gone);
  worker.on('error', gone);
  worker.on('exit', gone);
  return {
    deal: tasks =>
      new Promise((resolve, reject) => {
        if (isGone) return reject(new Error('the thread is gone'));
        waiting.push({ resolve, reject });
        worker.postMessage(tasks);
      }),
    end: () => void worker.terminate(),
  };
}
