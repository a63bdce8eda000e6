import type { Quantity } from '../engine/quantity.ts';
import { type NoteFacts, noteFacts, overrideKey } from '../language/facts.ts';
import type { Claim, Measurement, Subject } from '../language/measurement.ts';
import { blockKey, blockOf } from '../language/names.ts';
import type { Span } from '../language/syntax.ts';
import { agrees, isExactTerm, owner, type StatedValue } from './agreement.ts';
import { valueTimes } from './truth.ts';

/** A claimed value that later lines may rest on instead of the right one. */
export interface Substitute {
  readonly key: string;
  readonly value: Quantity;
  readonly claim: Claim;
  readonly span: Span;
}

/** The note's values with some claimed values in the place of the right ones; kept, since many lines ask. */
export interface Followers {
  /** Those of some claimed values that a block may rest on: of itself, and of blocks that it speaks of. */
  concerning(block: number, substitutes: readonly Substitute[]): readonly Substitute[];
  /** The values with these in their places, for a line of `block`. */
  under(block: number, substitutes: readonly Substitute[]): NoteFacts;
  /** Whether as much was worked out for a block, or for the note, as any needs that somebody wrote; then no more causes are looked for. */
  isSpent(block: number): boolean;
}

/** So many sets of wrong values times claims of the block are worked with, for one block and for all. */
const MOST_FOR_BLOCK = 40_000;
const MOST_FOR_NOTE = 80_000;
const MOST_KEPT = 64;

export function followers(measurements: readonly Measurement[]): Followers {
  const known = new Map<string, NoteFacts>();
  let asking = -1;
  let spentForBlock = 0;
  let spentForNote = 0;
  // Blocks are judged one after the other; what one asks for must not depend on what others have asked.
  const turnTo = (block: number): void => {
    if (block === asking) return;
    asking = block;
    spentForBlock = 0;
    known.clear();
  };
  const reach = reachOf(measurements);
  return {
    concerning: (block, substitutes) => {
      const reached = reach(block);
      return substitutes.filter(({ key }) => reached.has(Number.parseInt(key, 10)));
    },
    isSpent(block) {
      turnTo(block);
      return spentForBlock >= MOST_FOR_BLOCK || spentForNote >= MOST_FOR_NOTE;
    },
    under(block, substitutes) {
      turnTo(block);
      const name = substitutes.map(({ key, span }) => `${key}@${span.start}`).join('|');
      const before = known.get(name);
      if (before !== undefined) return before;
      const cost = measurements[block]!.claims.length;
      spentForBlock += cost;
      spentForNote += cost;
      const facts = noteFacts(measurements, new Map(substitutes.map(({ key, value }) => [key, value])));
      if (known.size > MOST_KEPT) known.clear();
      known.set(name, facts);
      return facts;
    },
  };
}

/** The numbers of the blocks that each block speaks of, over others too, and its own. */
function reachOf(measurements: readonly Measurement[]): (block: number) => ReadonlySet<number> {
  const numbers = new Map<string, number>();
  for (const [index, { name }] of measurements.entries())
    if (name !== null && !numbers.has(blockKey(name))) numbers.set(blockKey(name), index);
  const reached = new Map<number, ReadonlySet<number>>();
  return block => {
    const before = reached.get(block);
    if (before !== undefined) return before;
    const all = new Set([block]);
    // What is added while the set is gone through is gone through as well.
    for (const index of all)
      for (const name of namesOfOthers(measurements[index]!)) {
        const other = numbers.get(blockKey(name));
        if (other !== undefined) all.add(other);
      }
    reached.set(block, all);
    return all;
  };
}

function namesOfOthers({ uses, subjects }: Measurement): readonly string[] {
  const named = [...subjects.values()].flatMap(subject => blockOf(subject) ?? []);
  return uses === null ? named : [uses.name, ...named];
}

/** The key under which a claim's value stands for its subject, in whichever block that is. */
export function substituteKey(note: NoteFacts, block: number, subject: Subject): string | null {
  const holder = owner(note.block(block), subject);
  return holder === null ? null : overrideKey(holder.index, local(subject));
}

function local(subject: Subject): Subject {
  if (subject.kind === 'statistic') return { ...subject, of: local(subject.of) };
  return subject.kind === 'unknown' ? subject : { ...subject, block: null };
}

/** The values that a claim may rest on: of a division only what else is said of the scales, a reading by the least count. */
export function mayRestOn({ subject }: Claim, wrong: readonly Substitute[]): readonly Substitute[] {
  return isExactTerm(subject) ? wrong : wrong.filter(({ claim }) => claim.subject.kind !== 'division');
}

/** At most so many single causes are tried for one value, the nearest first. */
const MOST_CAUSES = 24;

/**
 * The claimed values above that a stated value follows from: all at once first, then each alone, the nearest first.
 *
 * Where only several together explain it, those that it cannot do without, the nearest first. None where the value
 * follows from none of them.
 */
export function causesOf(
  follow: Followers,
  block: number,
  claim: Claim,
  stated: StatedValue,
  substitutes: readonly Substitute[],
): readonly Substitute[] {
  const near = substitutes.length === 0 ? [] : follow.concerning(block, substitutes);
  const own = near.length === 0 ? null : substituteKey(follow.under(block, []), block, claim.subject);
  const above = near.filter(({ key }) => key !== own);
  if (above.length === 0 || follow.isSpent(block)) return [];
  const followsFrom = (chosen: readonly Substitute[]): boolean => {
    const facts = follow.under(block, chosen).block(block);
    const value = valueTimes(facts, claim);
    return value.ok && agrees(facts, claim.subject, value.quantity, stated);
  };
  const together = followsFrom(above);
  const nearest = [...above].reverse().slice(0, MOST_CAUSES);
  const alone = nearest.find(substitute => (above.length === 1 ? together : followsFrom([substitute])));
  if (alone !== undefined) return [alone];
  if (!together) return [];
  const needed = nearest.filter(substitute => !followsFrom(above.filter(other => other !== substitute)));
  return needed.length > 0 ? needed : nearest.slice(0, 1);
}
