import type { Shard } from './shard.ts';

/** What a share of a bank says about itself, so that all of them can be put together again. */
export interface ShareFacts extends Shard {
  /**
   * A digest of all that the shares of one bank have in common: the version, how notes are looked at, and the path and
   * the settings of every note. Null where the run was interrupted before it had dealt with all of its share.
   */
  readonly bank: string | null;
  /** How many notes were dealt to this share. */
  readonly places: number;
  /** Of these the ones that the report does not hold, since they are left out or could not be read: from which on, how many. */
  readonly without: readonly (readonly [from: number, count: number])[];
  /** Sentences about what could not be done. */
  readonly troubles: readonly string[];
}
