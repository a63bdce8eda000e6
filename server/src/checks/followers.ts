import type { Quantity } from '../engine/quantity.ts';
import { type NoteFacts, noteFacts, overrideKey } from '../language/facts.ts';
import type { Claim, Measurement, Subject } from '../language/measurement.ts';
import type { Span } from '../language/syntax.ts';
import { agrees, owner, type StatedValue } from './agreement.ts';
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
  under(substitutes: readonly Substitute[]): NoteFacts;
  /** Whether as much was worked out for one note as any needs that somebody wrote; then no more causes are looked for. */
  isSpent(): boolean;
}

/** So many sets of wrong values are worked with in one note. */
const MOST_FACTS = 400;

export function followers(measurements: readonly Measurement[]): Followers {
  const known = new Map<string, NoteFacts>();
  let fresh = 0;
  return {
    isSpent: () => fresh >= MOST_FACTS,
    under(substitutes) {
      const name = substitutes.map(({ key, span }) => `${key}@${span.start}`).join('|');
      const before = known.get(name);
      if (before !== undefined) return before;
      fresh += 1;
      const facts = noteFacts(measurements, new Map(substitutes.map(({ key, value }) => [key, value])));
      if (known.size > 64) known.clear();
      known.set(name, facts);
      return facts;
    },
  };
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
  const own = substitutes.length === 0 ? null : substituteKey(follow.under([]), block, claim.subject);
  const above = substitutes.filter(({ key }) => key !== own);
  if (above.length === 0 || follow.isSpent()) return [];
  const followsFrom = (chosen: readonly Substitute[]): boolean => {
    const facts = follow.under(chosen).block(block);
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
