import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { buildIfStale } from '../support/build-if-stale.ts';
import { type LspClient, lspClient, MODERN } from '../support/lsp-client.ts';
import { WRONG_NOTE } from '../support/workshop-notes.ts';

beforeAll(buildIfStale);

describe('a thousand notes opened and closed', () => {
  /** What the server holds in memory, in megabytes, as the system counts it. */
  function held({ process }: LspClient): number {
    const status = readFileSync(`/proc/${process.pid}/status`, 'utf8');
    return Number(/VmRSS:\s+(\d+)/.exec(status)![1]) / 1024;
  }

  it.runIf(process.platform === 'linux')('leave nothing behind', async () => {
    // A small heap is cleared often, so that what is left in it is what is held.
    const client = await lspClient(MODERN, { nodeOptions: ['--max-semi-space-size=1'] });
    const passage = WRONG_NOTE.replaceAll('axle-sleeve', 'sleeve');
    const note = (at: number): string => `${passage}\n${`Note ${at} of the workshop.\n\n`.repeat(2000)}`;
    const openAndClose = async (from: number, to: number): Promise<void> => {
      for (let at = from; at < to; at++) {
        const uri = `untitled:note-${at}`;
        client.open(uri, note(at));
        await client.pulled(uri);
        client.close(uri);
      }
    };
    await openAndClose(0, 300);
    const before = held(client);
    await openAndClose(300, 1300);
    // A thousand such notes are some 50 megabytes by their text alone.
    expect(held(client) - before).toBeLessThan(25);
  });
});
