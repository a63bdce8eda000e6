import { createHash } from 'node:crypto';
import type { NoteHoldings } from '../../checks/note-holdings.ts';
import { keyLetters, type LetterUse } from './key-letters.ts';

/** What a bank of notes holds. Lists begin with what is most frequent; what is alike stands in the order of its name. */
export interface BankHoldings {
  readonly notes: number;
  readonly blocks: number;
  /** How many blocks each instrument has; null stands for blocks that name none. */
  readonly instruments: readonly { readonly instrument: string | null; readonly blocks: number }[];
  /** In how many blocks each term is asked for. */
  readonly asked: readonly { readonly term: string; readonly blocks: number }[];
  readonly rules: readonly { readonly rule: string; readonly errors: number; readonly warnings: number }[];
  readonly slips: readonly { readonly slip: string; readonly findings: number }[];
  readonly keys: readonly LetterUse[];
  /** Blocks that show the same scales with the same observations, group by group in the order of the bank. */
  readonly duplicates: readonly (readonly BlockPlace[])[];
}

export interface BlockPlace {
  readonly path: string;
  readonly line: number;
  readonly block: string | null;
}

/** Gathers what notes hold, one note after the other. Of each question it keeps no more than a place and a digest. */
export interface HoldingsGathered {
  add(path: string, holdings: NoteHoldings): void;
  all(): BankHoldings;
}

export function bankHoldings(): HoldingsGathered {
  let [notes, blocks] = [0, 0];
  const instruments = new Map<string | null, number>();
  const asked = new Map<string, number>();
  const rules = new Map<string, { errors: number; warnings: number }>();
  const slips = new Map<string, number>();
  const keys = keyLetters();
  const firstSeen = new Map<string, BlockPlace>();
  const groups = new Map<string, BlockPlace[]>();

  const see = (seen: string, place: BlockPlace): void => {
    const digest = createHash('sha1').update(seen).digest('base64');
    const first = firstSeen.get(digest);
    if (first === undefined) firstSeen.set(digest, place);
    else groups.set(digest, [...(groups.get(digest) ?? [first]), place]);
  };

  return {
    add(path, holdings) {
      notes += 1;
      for (const { line, name, instrument, asked: terms, key, seen } of holdings.blocks) {
        blocks += 1;
        count(instruments, instrument);
        for (const term of terms) count(asked, term);
        if (key !== null) keys.add(key.choices, key.letters);
        if (seen !== null) see(seen, { path, line, block: name });
      }
      for (const { rule, severity, slip } of holdings.findings) {
        const before = rules.get(rule) ?? { errors: 0, warnings: 0 };
        rules.set(rule, {
          errors: before.errors + (severity === 'error' ? 1 : 0),
          warnings: before.warnings + (severity === 'warning' ? 1 : 0),
        });
        if (slip !== null) count(slips, slip);
      }
    },
    all: () => ({
      ...{ notes, blocks },
      instruments: frequentFirst(instruments).map(([instrument, times]) => ({ instrument, blocks: times })),
      asked: frequentFirst(asked).map(([term, times]) => ({ term, blocks: times })),
      rules: [...rules]
        .sort(([a, x], [b, y]) => y.errors - x.errors || y.warnings - x.warnings || byName(a, b))
        .map(([rule, times]) => ({ rule, ...times })),
      slips: frequentFirst(slips).map(([slip, findings]) => ({ slip, findings })),
      keys: keys.uses(),
      duplicates: [...groups.values()],
    }),
  };
}

function count<Name>(times: Map<Name, number>, name: Name): void {
  times.set(name, (times.get(name) ?? 0) + 1);
}

function frequentFirst<Name extends string | null>(
  times: ReadonlyMap<Name, number>,
): readonly (readonly [Name, number])[] {
  return [...times].sort(([a, x], [b, y]) => y - x || byName(a ?? '', b ?? ''));
}

function byName(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
