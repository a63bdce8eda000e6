import { createHash } from 'node:crypto';
import type { Found } from '../bank/note-tasks.ts';
import type { NoteJob } from '../bank/note-work.ts';
import { buildDigest } from '../cache/build-digest.ts';
import { type NoteSettings, noteSettings } from '../note-settings.ts';
import type { ReportFormat } from '../reporters/report-choice.ts';
import type { Reporter } from '../reporters/reporter.ts';
import { sealedReporter } from './sealed-reporter.ts';
import type { Shard } from './shard.ts';

/** A run over one share of a bank. */
export interface ShardRun {
  /** The notes of this share, and every sentence about an argument: each share tells it, for it is true of the bank. */
  readonly founds: AsyncGenerator<Found>;
  /** What falls to this share of anything that is found in the same order. */
  readonly among: <Item extends { readonly kind: string }>(all: AsyncIterable<Item>) => AsyncGenerator<Item>;
  /** To be told of each note of the share in turn, whether the report holds it. */
  readonly dealtWith: (isInReport: boolean) => void;
  /** To be told of whatever could not be done. */
  readonly troubled: (trouble: string) => void;
  /** The same report, saying of which share it is. */
  readonly sealed: (reporter: Reporter, format: ReportFormat) => Reporter;
}

/** Of so many troubles the words are kept; of the rest only their number, so that no bank makes a report too long. */
const TOLD = 100;

/**
 * Deals a bank out: the first note to the first share, the second to the second, and so on round and round, so that
 * every share takes about as long. All shares look at the whole list of notes, but check only their own.
 */
export function shardRun(all: AsyncIterable<Found>, { index, of }: Shard, job: NoteJob): ShardRun {
  const settingsOf = noteSettings(job.config);
  const digest = createHash('sha256').update(howNotesAreSeen(job));
  const without: [number, number][] = [];
  const troubles: string[] = [];
  let [untold, places, reported] = [0, 0, 0];
  let bank: string | null = null;

  async function* founds(): AsyncGenerator<Found> {
    let at = 0;
    for await (const found of all) {
      if (found.kind === 'trouble') {
        yield found;
        continue;
      }
      const { path, recorded } = found.task;
      const settings = settingsDigest(await settingsOf(path));
      digest.update(JSON.stringify([path, settings, recorded?.findings ?? null]));
      const isOurs = at++ % of === index - 1;
      if (isOurs) places++;
      if (isOurs) yield found;
    }
    bank = digest.digest('hex');
  }

  return {
    founds: founds(),
    among: all => fallingTo({ index, of }, all),
    dealtWith: isInReport => {
      const last = without.at(-1);
      if (!isInReport && last !== undefined && last[0] + last[1] === reported) last[1]++;
      else if (!isInReport) without.push([reported, 1]);
      reported++;
    },
    troubled: trouble => {
      if (troubles.length < TOLD) troubles.push(trouble);
      else untold++;
    },
    sealed: (reporter, format) =>
      sealedReporter(reporter, format, () => ({
        ...{ index, of, places, without },
        bank: reported === places ? bank : null,
        troubles:
          untold === 0
            ? troubles
            : [...troubles, `as for ${untold} notes more, see the share's own messages`],
      })),
  };
}

/** All but the settings that the facts of a report depend on; shares that differ in it do not belong together. */
function howNotesAreSeen({ reports, mending }: NoteJob): string {
  const shown = reports
    .filter(({ format }) => format === 'json')
    .map(({ waived, quiet }) => JSON.stringify([waived, quiet]));
  return JSON.stringify([buildDigest(), mending?.mode ?? null, ...new Set(shown)]);
}

/** What falls to one share of all that is found; sentences fall to every one. */
async function* fallingTo<Item extends { readonly kind: string }>(
  { index, of }: Shard,
  all: AsyncIterable<Item>,
): AsyncGenerator<Item> {
  let at = 0;
  for await (const item of all) if (item.kind === 'trouble' || at++ % of === index - 1) yield item;
}

const known = new WeakMap<object, string>();

/** Notes below one configuration have the same settings, so its digest is made but once. */
function settingsDigest(how: NoteSettings): string {
  const key = how.ok ? how.settings : how.troubles;
  const digest = known.get(key) ?? createHash('sha256').update(JSON.stringify(key)).digest('hex');
  known.set(key, digest);
  return how.ok && how.isIgnored ? `${digest} left out` : digest;
}
