import { once } from 'node:events';

/** Where a report goes, piece by piece. */
export interface Output {
  readonly write: (text: string) => Promise<void> | undefined;
  /** Writes what is left; gives the sentence that says why the report could not be written, or null. */
  readonly end: () => Promise<string | null>;
}

const PIECE = 32_768;

/** Standard output, gathered into pieces; waits where the reader is slower, so that memory stays flat. */
export function standardOutput(): Output {
  const { stdout } = process;
  let waiting = '';
  let failure: string | null = null;
  stdout.on('error', (error: NodeJS.ErrnoException) => {
    failure = error.code ?? String(error);
  });
  const flush = async () => {
    const piece = waiting;
    waiting = '';
    if (piece === '' || failure !== null) return;
    // The wait is broken off by the error that the listener above has kept.
    if (!stdout.write(piece)) await once(stdout, 'drain').catch(() => undefined);
  };
  return {
    write: text => {
      waiting += text;
      return waiting.length < PIECE ? undefined : flush();
    },
    end: async () => {
      await flush();
      // A reader that has seen enough (`| head`) is no failure.
      return failure === null || failure === 'EPIPE' ? null : `the report could not be written (${failure})`;
    },
  };
}
