import { describe, expect, it } from 'vitest';
import { checkInTurn } from '../../client/src/commands/check-in-turn.ts';

const NOTES = Array.from({ length: 20 }, (_, at) => `memfs:/bench/${at}.md`);

/** Every third note has two findings. */
const found = (uri: string): number => (NOTES.indexOf(uri) % 3 === 0 ? 2 : 0);

describe('checking all notes', () => {
  it('asks about each once, a few at a time, and counts', async () => {
    const asked: string[] = [];
    const told: number[] = [];
    let [open, most] = [0, 0];
    const check = async (uri: string): Promise<number> => {
      asked.push(uri);
      open += 1;
      most = Math.max(most, open);
      await new Promise(setImmediate);
      open -= 1;
      return found(uri);
    };
    const result = await checkInTurn(
      NOTES,
      check,
      () => false,
      checked => told.push(checked),
    );
    expect(result).toEqual({ notes: 20, checked: 20, findings: 14, notesWithFindings: 7 });
    expect(asked).toEqual(NOTES);
    expect(most).toBe(4);
    expect(told).toEqual(NOTES.map((_, at) => at + 1));
  });

  it('stops where somebody has enough, and keeps what was found by then', async () => {
    const asked: string[] = [];
    let isStopped = false;
    const result = await checkInTurn(
      NOTES,
      async uri => {
        asked.push(uri);
        await new Promise(setImmediate);
        // An answer that is no longer wanted is a refusal.
        if (isStopped) throw new Error('cancelled');
        return found(uri);
      },
      () => isStopped,
      checked => {
        isStopped = checked === 8;
      },
    );
    expect(result).toEqual({ notes: 20, checked: 8, findings: 6, notesWithFindings: 3 });
    expect(asked.length).toBeLessThanOrEqual(12);
  });

  it('asks about none where it is stopped at once, and there may be none', async () => {
    const never = async (): Promise<number> => expect.unreachable();
    const nothing = { checked: 0, findings: 0, notesWithFindings: 0 };
    const say = (): void => undefined;
    expect(await checkInTurn(NOTES, never, () => true, say)).toEqual({ notes: 20, ...nothing });
    expect(await checkInTurn([], never, () => false, say)).toEqual({ notes: 0, ...nothing });
  });

  it('says what goes wrong where nobody has stopped it', async () => {
    const failing = checkInTurn(
      NOTES,
      async () => Promise.reject(new Error('the server is gone')),
      () => false,
      () => undefined,
    );
    await expect(failing).rejects.toThrow('the server is gone');
  });
});
