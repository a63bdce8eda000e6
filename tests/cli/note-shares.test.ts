import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Dealt, type Hands, type Helper, noteShares } from '../../server/src/cli/bank/note-shares.ts';
import type { Found } from '../../server/src/cli/bank/note-tasks.ts';
import type { NoteShare, NoteTask } from '../../server/src/cli/bank/note-work.ts';
import { drawSeed } from '../support/seed.ts';

// Helpers that are slow, quick, or die, in every order: the report must be the one that a single thread makes.
drawSeed('note-shares');

const task = (path: string): Found => ({
  kind: 'task',
  task: { path, isMeant: false, given: null, recorded: null },
});
const trouble = (at: number): Found => ({ kind: 'trouble', message: `there is no file ${at}` });

/** A share that tells which note it is of. */
const shareOf = ({ path }: NoteTask): NoteShare => ({
  ...{ troubles: [], configTroubles: [], notices: [], commonNotices: [] },
  ...{ counts: null, pieces: [path], fixes: 0, shown: '', shownFile: null, seen: null },
});

const told = (dealt: Dealt) => (dealt.kind === 'trouble' ? dealt.message : (dealt.share.pieces[0] ?? ''));
const expected = (founds: readonly Found[]) =>
  founds.map(found => (found.kind === 'trouble' ? found.message : found.task.path));

/** A few turns of the event loop, so that others may come first. */
async function turns(count: number): Promise<void> {
  for (let turn = 0; turn < count; turn++) await new Promise(resolve => setImmediate(resolve));
}

interface Watched {
  readonly founds: AsyncIterator<Found>;
  readonly taken: () => number;
}

function watched(founds: readonly Found[]): Watched {
  let taken = 0;
  const each = async function* () {
    for (const found of founds) {
      taken++;
      yield found;
    }
  };
  return { founds: each(), taken: () => taken };
}

/** A helper that takes as many turns over each batch as the list says, and dies where it says none. */
function helper(pace: readonly (number | null)[]): Helper & { readonly dealtWith: () => number } {
  let at = 0;
  let isDead = false;
  let last = Promise.resolve();
  return {
    dealtWith: () => at,
    deal: async tasks => {
      const wait = pace[at++ % pace.length] ?? null;
      if (wait === null) isDead = true;
      const before = last;
      last = (async () => {
        await before;
        await turns(wait ?? 1);
      })();
      await last;
      if (isDead) throw new Error('dead');
      return tasks.map(shareOf);
    },
  };
}

const pace = fc.array(fc.option(fc.nat(4), { freq: 6 }), { minLength: 1, maxLength: 8 });
const bank = fc
  .array(fc.boolean(), { maxLength: 260 })
  .map(kinds => kinds.map((isNote, at) => (isNote || at % 7 !== 0 ? task(`q${at}.md`) : trouble(at))));

function hands(helpers: readonly Helper[], more: Partial<Hands> = {}): Hands {
  return {
    work: async given => shareOf(given),
    helpers: async () => helpers,
    isStopped: () => false,
    ...more,
  };
}

describe('the notes of a run', () => {
  test('come back in their order, whoever is quick, slow or dead', async () => {
    await fc.assert(
      fc.asyncProperty(bank, fc.array(pace, { maxLength: 4 }), async (founds, paces) => {
        const got: string[] = [];
        const { founds: source, taken } = watched(founds);
        for await (const dealt of noteShares(source, hands(paces.map(helper)))) {
          got.push(told(dealt));
          // Six batches of eight for each thread, and the one that is being told.
          expect(taken() - got.length).toBeLessThanOrEqual(8 * (6 * (paces.length + 1) + 1));
        }
        expect(got).toEqual(expected(founds));
      }),
      { numRuns: 200 },
    );
  });

  test('are all dealt with here where every helper dies at once', async () => {
    const founds = Array.from({ length: 100 }, (_, at) => task(`q${at}.md`));
    const dead = [helper([null]), helper([null])];
    const got: string[] = [];
    for await (const dealt of noteShares(watched(founds).founds, hands(dead))) got.push(told(dealt));
    expect(got).toEqual(expected(founds));
    // One batch and the next at hand; after that a dead one gets nothing.
    expect(dead.map(each => each.dealtWith())).toEqual([2, 2]);
  });

  test('are shared out once there are helpers', async () => {
    const founds = Array.from({ length: 400 }, (_, at) => task(`q${at}.md`));
    const late = helper([0]);
    let here = 0;
    const work = async (given: NoteTask) => {
      here++;
      await turns(1);
      return shareOf(given);
    };
    const helpers = async () => (here < 40 ? [] : [late]);
    const got: string[] = [];
    for await (const dealt of noteShares(watched(founds).founds, hands([], { work, helpers })))
      got.push(told(dealt));
    expect(got).toEqual(expected(founds));
    expect(late.dealtWith()).toBeGreaterThan(5);
    expect(here + 8 * late.dealtWith()).toBeGreaterThanOrEqual(400);
  });

  test('end in the middle where they are stopped, without a gap before', async () => {
    await fc.assert(
      fc.asyncProperty(
        bank,
        fc.array(pace, { maxLength: 3 }),
        fc.nat(250),
        async (founds, paces, stopAfter) => {
          let done = 0;
          const { founds: source, taken } = watched(founds);
          let takenAtStop: number | null = null;
          const isStopped = () => {
            if (done < stopAfter) return false;
            takenAtStop ??= taken();
            return true;
          };
          const work = async (given: NoteTask) => {
            done++;
            return shareOf(given);
          };
          const got: string[] = [];
          for await (const dealt of noteShares(source, hands(paces.map(helper), { work, isStopped })))
            got.push(told(dealt));
          expect(got).toEqual(expected(founds).slice(0, got.length));
          if (takenAtStop === null) expect(got).toHaveLength(founds.length);
          else expect(taken()).toBe(takenAtStop);
        },
      ),
      { numRuns: 200 },
    );
  });
});
