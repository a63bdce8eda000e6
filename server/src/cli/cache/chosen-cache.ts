import { complain } from '../complain.ts';
import { type CacheFolder, prepareCacheFolder } from './cache-folder.ts';

/** Where a run keeps what it finds; null for nowhere. */
export type ChosenCache =
  | { readonly ok: true; readonly folder: CacheFolder | null }
  /** What was typed cannot be meant; it was told. */
  | { readonly ok: false };

/** Where the command runs, below a name that no walk for notes looks into. */
const USUAL_FOLDER = '.leastwise-cache';

/**
 * What `--cache` (`typed` is true) or `--cache DIR` means. A folder that cannot be written to is told, and the notes are
 * checked without it; one that holds other things was hardly meant, for `--cache notes` names no note.
 */
export function chosenCache(typed: string | true, paths: readonly string[]): ChosenCache {
  if (typeof typed === 'string' && paths.length === 0) {
    complain(
      `nothing to check: \`--cache ${typed}\` makes ${typed} the folder of the cache, so name the notes before it, or - for standard input`,
    );
    return { ok: false };
  }
  const prepared = prepareCacheFolder(typed === true ? USUAL_FOLDER : typed);
  if (prepared.kind === 'ready') return { ok: true, folder: prepared.folder };
  complain(prepared.message);
  return prepared.kind === 'unusable' || typed === true ? { ok: true, folder: null } : { ok: false };
}
