import type { MessagePort } from 'node:worker_threads';
import { settleWorkingFolder } from '../working-folder.ts';
import { type NoteJob, type NoteTask, noteWork } from './note-work.ts';

/** A further thread of a run: deals with the notes that it is sent, batch after batch, and sends what came of each. */
export function noteThread(port: MessagePort, job: NoteJob): void {
  settleWorkingFolder();
  const ready = noteWork(job);
  let last: Promise<void> = Promise.resolve();
  port.on('message', (tasks: readonly NoteTask[]) => {
    last = last.then(async () => {
      const work = await ready;
      const shares = [];
      for (const task of tasks) shares.push(await work(task));
      port.postMessage(shares);
    });
  });
}
