import { writeSync } from 'node:fs';
import { errorCode, writingTrouble } from './writing-trouble.ts';

/** Where a report goes, piece by piece. */
export interface Output {
  readonly write: (text: string) => Promise<void> | undefined;
  /** Writes what is left; gives the sentence that says why the report could not be written, or null. */
  readonly end: () => Promise<string | null>;
  /** Of a file: leaves it as it was before, in place of an end. */
  readonly drop?: () => Promise<null>;
}

const PIECE = 32_768;
const STDOUT = 1;

/** Standard output, gathered into pieces; waits where the reader is slower, so that memory stays flat. `before` is called before each piece. */
export function standardOutput(before: () => void = () => undefined): Output {
  const { write, flush } = gathered(bytes => {
    before();
    return writeAll(bytes);
  });
  return {
    write,
    end: async () => {
      const failure = await flush();
      // A reader that has seen enough (`| head`) is no failure.
      return failure === null || errorCode(failure) === 'EPIPE'
        ? null
        : writingTrouble(failure, 'the report');
    },
  };
}

interface Gathered {
  readonly write: Output['write'];
  /** Hands on what is left; gives what went wrong at any time, or null. */
  readonly flush: () => Promise<unknown>;
}

/** Text on its way, handed on in pieces of a good size. Once something went wrong, no more is handed on. */
export function gathered(handOn: (bytes: Buffer) => void | Promise<void>): Gathered {
  let waiting = '';
  let failure: unknown = null;
  const flush = async () => {
    const piece = waiting;
    waiting = '';
    if (piece === '' || failure !== null) return failure;
    try {
      await handOn(Buffer.from(piece));
    } catch (error) {
      failure = error;
    }
    return failure;
  };
  return {
    write: text => {
      waiting += text;
      return waiting.length < PIECE ? undefined : flush().then(() => undefined);
    },
    flush,
  };
}

/**
 * Writes straight to the descriptor, which starts faster than a stream. One that will not wait for its reader
 * gets the stream, and so does Windows, whose consoles need the stream's care for letters.
 */
async function writeAll(bytes: Buffer): Promise<void> {
  if (process.platform === 'win32') return throughStream(bytes);
  let written = 0;
  try {
    while (written < bytes.length) written += writeSync(STDOUT, bytes, written);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EAGAIN') throw error;
    await throughStream(bytes.subarray(written));
  }
}

function throughStream(bytes: Buffer): Promise<void> {
  const { stdout } = process;
  // Every failure is told by the answer to its write; unheard as an event it would end the process.
  if (stdout.listenerCount('error') === 0) stdout.on('error', () => undefined);
  return new Promise((resolve, reject) => {
    stdout.write(bytes, error => (error ? reject(error) : resolve()));
  });
}
