import type { Derivation } from '../engine/derivation.ts';
import { claimLine } from '../render/derivation-lines.ts';

/** One way to write the line of a derivation that claims its result. */
export interface LineVariant {
  readonly line: string;
  /** What stands before the first sign. */
  readonly left: string;
  /** From the first sign on: `= S - V = 0.5 mm - 0.48 mm = 0.02 mm`. */
  readonly chain: string;
}

/** The line that claims a derivation's result: with all its links, with formula and result only, with the result alone. */
export function lineVariants({ steps }: Derivation): readonly LineVariant[] {
  const step = steps.findLast(each => claimLine(each) !== null);
  if (step?.kind !== 'line') return [];
  const { links } = step;
  const ends = [links[0]!, links[links.length - 1]!];
  const choices = [links, ...(links.length > 2 ? [ends] : []), ...(links.length > 1 ? [ends.slice(1)] : [])];
  return choices.flatMap(chosen => {
    const line = claimLine({ ...step, links: chosen });
    const at = line?.search(/[=≈]/) ?? -1;
    return line === null || at === -1
      ? []
      : [{ line, left: line.slice(0, at).trimEnd(), chain: line.slice(at) }];
  });
}
