import { createRequire } from 'node:module';
import { complain, type ExitStatus } from './complain.ts';

/** How an editor may speak to the server. */
export interface ServeOptions {
  readonly stdio?: true;
  readonly nodeIpc?: true;
}

/**
 * Serves an editor until it says goodbye. The server is a bundle of its own beside this one, which nobody loads who
 * only checks a note.
 */
export function serve({ stdio, nodeIpc }: ServeOptions): ExitStatus {
  if (stdio === undefined && nodeIpc === undefined) {
    complain('serve talks to an editor, not to a person: `leastwise serve --stdio` is what an editor starts');
    return 2;
  }
  createRequire(import.meta.url)('./server.cjs');
  return 0;
}
