import { keepMemoryFlat } from '../keep-memory-flat.ts';
import type { Found } from './note-tasks.ts';
import type { NoteShare, NoteTask } from './note-work.ts';

/** What the run comes by, in the order of the report: a note's share, or the sentence of an argument that gives none. */
export type Dealt =
  | { readonly kind: 'share'; readonly share: NoteShare }
  | { readonly kind: 'trouble'; readonly message: string };

/** One who takes some of the notes off this thread. */
export interface Helper {
  /** What came of some notes, in their order; rejected where the helper can do no more. */
  readonly deal: (tasks: readonly NoteTask[]) => Promise<readonly NoteShare[]>;
}

export interface Hands {
  readonly work: (task: NoteTask) => Promise<NoteShare>;
  /** Asked again and again while there are notes left; helpers stay the same once there are some. */
  readonly helpers: () => Promise<readonly Helper[]>;
  /** Whether no further note should be begun; what is begun is brought to its end all the same. */
  readonly isStopped: () => boolean;
}

/** Some notes that one thread deals with in a row. */
interface Batch {
  readonly founds: readonly Found[];
  state:
    | { readonly is: 'given'; readonly settled: Promise<void> }
    | { readonly is: 'left' }
    | { readonly is: 'done'; readonly dealt: readonly Dealt[] };
}

/** Few enough that a batch takes no longer than a blink, many enough that handing it over costs next to nothing. */
const BATCH = 8;
/** A helper has one batch to do and the next at hand, so that it never waits. */
const AT_HAND = 2;
/** For each thread, how many batches may be ahead of the one whose turn it is in the report. */
const AHEAD = 6;
/** After how many milliseconds this thread looks up: signals and helpers are heard only then. */
const LOOK_UP_AFTER = 15;

/**
 * Deals with the notes, here and by the helpers, and gives what came of them in the order in which they were found,
 * whoever is done first. Only so many are ahead of the slowest, so a bank may be of any size. What a helper
 * leaves undone is done here.
 */
export async function* noteShares(founds: AsyncIterator<Found>, hands: Hands): AsyncGenerator<Dealt> {
  const line: Batch[] = [];
  const atHand = new Map<Helper, number>();
  const lookUp = lookingUp();
  let isEmptied = false;

  const nextBatch = async (): Promise<Batch | null> => {
    const taken: Found[] = [];
    while (!isEmptied && taken.length < BATCH && !hands.isStopped()) {
      const next = await founds.next();
      if (next.done) isEmptied = true;
      else taken.push(next.value);
    }
    if (taken.length === 0) return null;
    const batch: Batch = { founds: taken, state: { is: 'left' } };
    line.push(batch);
    return batch;
  };
  const give = (helper: Helper, batch: Batch) => {
    const count = (by: number) => atHand.set(helper, (atHand.get(helper) ?? 0) + by);
    count(1);
    const settled = helper.deal(tasksOf(batch)).then(
      shares => {
        count(-1);
        batch.state = { is: 'done', dealt: inTheirPlaces(batch.founds, shares) };
      },
      () => {
        // One who has failed once is given nothing more.
        count(Number.POSITIVE_INFINITY);
        batch.state = { is: 'left' };
      },
    );
    batch.state = { is: 'given', settled };
  };
  const doHere = async (batch: Batch, mayStop: boolean) => {
    const dealt: Dealt[] = [];
    for (const found of batch.founds) {
      await lookUp();
      if (mayStop && hands.isStopped()) break;
      dealt.push(found.kind === 'trouble' ? found : { kind: 'share', share: await hands.work(found.task) });
    }
    batch.state = { is: 'done', dealt };
  };

  for (;;) {
    const helpers = isEmptied ? [] : await hands.helpers();
    const room = AHEAD * (helpers.length + 1);
    for (const helper of helpers)
      while (line.length < room && (atHand.get(helper) ?? 0) < AT_HAND) {
        const batch = await nextBatch();
        if (batch === null) break;
        give(helper, batch);
      }
    const own = line.length < room ? await nextBatch() : null;
    // The last in the line may be cut short; a gap before others may not be.
    if (own !== null) await doHere(own, true);
    else if (line[0]?.state.is === 'given') await line[0].state.settled;
    for (let first = line[0]; first !== undefined && first.state.is !== 'given'; first = line[0]) {
      if (first.state.is === 'left') await doHere(first, false);
      if (first.state.is === 'done') yield* first.state.dealt;
      line.shift();
    }
    if (line.length === 0 && (isEmptied || hands.isStopped())) return;
  }
}

function tasksOf({ founds }: Batch): readonly NoteTask[] {
  return founds.flatMap(found => (found.kind === 'task' ? [found.task] : []));
}

/** Puts the shares of some notes between the sentences that were found among them. */
function inTheirPlaces(founds: readonly Found[], shares: readonly NoteShare[]): readonly Dealt[] {
  let at = 0;
  const dealt: Dealt[] = [];
  for (const found of founds) {
    if (found.kind === 'trouble') dealt.push(found);
    else {
      const share = shares[at++];
      if (share !== undefined) dealt.push({ kind: 'share', share });
    }
  }
  return dealt;
}

/**
 * Lets the system have its say once in a while, between two notes; else nobody hears a signal or a helper as long as
 * there is work. Before the first note there is nothing to hear: a run over one note is to start and end at once, and
 * the build keeps what V8 has compiled in such a run, which is good for nothing once V8 has been given switches.
 */
export function lookingUp(): () => Promise<void> {
  let last: number | null = null;
  let hasLookedUp = false;
  return async () => {
    last ??= performance.now();
    if (performance.now() - last < LOOK_UP_AFTER) return;
    if (!hasLookedUp) await keepMemoryFlat();
    hasLookedUp = true;
    await new Promise(resolve => setImmediate(resolve));
    last = performance.now();
  };
}
