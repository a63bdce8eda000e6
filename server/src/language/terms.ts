import type { TermName } from './term-names.ts';
import { COMPUTED_TERMS } from './terms-computed.ts';
import { OBSERVABLE_TERMS } from './terms-observable.ts';
import { RECORD_TERMS } from './terms-record.ts';

/** How a term takes part in a block. */
export type TermKind = 'record' | 'scale' | 'division' | 'observable' | 'computed' | 'statistic';

/** A word of the trade: its one full name, the abbreviations in use, and what it means. */
export interface Term {
  readonly name: TermName;
  readonly also: readonly string[];
  readonly kind: TermKind;
  /** One sentence for a student, no final stop. */
  readonly meaning: string;
  readonly formula?: string;
  readonly sign?: string;
  /** What its values are measured in; left out where it has none. */
  readonly unit?: string;
  readonly example: string;
}

export const TERMS: readonly Term[] = [...RECORD_TERMS, ...OBSERVABLE_TERMS, ...COMPUTED_TERMS];

const byName = new Map<string, Term>();
const caseSensitive = new Map<string, Term>();
for (const term of TERMS) {
  for (const name of [term.name, ...term.also]) {
    // One letter means what its case says: V is a vernier division, v may be a speed.
    if (name.length === 1) caseSensitive.set(name, term);
    else if (!byName.has(name.toLowerCase())) byName.set(name.toLowerCase(), term);
  }
}

/** The term that a name means, whatever its case, its points (`L.C.`) or its hyphens; null for no term. */
export function findTerm(text: string): Term | null {
  const before = found.get(text);
  if (before !== undefined) return before;
  const term = searchTerm(text);
  // The same few names come again and again; a note of nothing but different ones must not fill the memory.
  if (found.size >= MOST_KEPT) found.clear();
  found.set(text, term);
  return term;
}

const found = new Map<string, Term | null>();
const MOST_KEPT = 2000;
const LONGEST_NAME = 80;

function searchTerm(text: string): Term | null {
  if (text.length > LONGEST_NAME) return null;
  const plain = plainName(text);
  if (plain.length === 1) return caseSensitive.get(plain) ?? null;
  const small = plain.toLowerCase();
  return byName.get(small) ?? countedScale(small);
}

/** `number of divisions on the disc`: the fine scale whose divisions are counted; null for any other name. */
function countedScale(name: string): Term | null {
  const scale = /^(?:total )?(?:number|no) of divisions (?:on|of) (?:the )?(.+)$/.exec(name)?.[1];
  const term = scale === undefined ? undefined : byName.get(scale);
  return term?.name === 'circular scale' || term?.name === 'vernier scale' ? term : null;
}

/** A name as the table spells it: single spaces, no points in abbreviations, no hyphens between words. */
function plainName(text: string): string {
  return text
    .trim()
    .replace(/\b([A-Za-z])\s*\.\s*(?=[A-Za-z]\b|$)/g, '$1')
    .replace(/\b([A-Za-z]{1,4})\.(?=\s|$)/g, '$1')
    .replace(/[\s_-]+/g, ' ')
    .trim();
}

const firstWords = new Set<string>();
for (const term of TERMS) {
  for (const name of [term.name, ...term.also]) firstWords.add(name.split(/[ .]/)[0]!.toLowerCase());
}

/** Whether some term's name begins with a word: most words of a note begin none. */
export function beginsTerm(word: string): boolean {
  return word.length === 1 || firstWords.has(word.toLowerCase());
}

/** The full term with this name; for names that are known to stand in the table. */
export function termNamed(name: TermName): Term {
  const term = byName.get(name) ?? caseSensitive.get(name);
  if (term === undefined) throw new Error(`no term ${name}`);
  return term;
}

export interface NearTerm {
  readonly term: Term;
  /** The name of it that is near, with its own spelling. */
  readonly name: string;
  /** Whether the word can hardly be another: one letter of a long name is off. */
  readonly sure: boolean;
}

/** Terms whose name is at most two letters off, the nearest first; they are offered, never assumed. */
export function nearTerms(text: string): readonly NearTerm[] {
  const plain = plainName(text).toLowerCase();
  if (plain.length < 4 || plain.length > 40) return [];
  const near: (NearTerm & { readonly distance: number })[] = [];
  for (const [name, term] of byName) {
    if (name.length < 4) continue;
    const distance = editDistance(plain, name, name.length < 6 ? 1 : 2);
    if (distance > 0 && distance <= (name.length < 6 ? 1 : 2))
      near.push({ term, name, distance, sure: distance === 1 && name.length > 7 });
  }
  return near.sort((a, b) => a.distance - b.distance);
}

/** How many single letters must change to turn one word into the other; more than `most` comes back as `most + 1`. */
export function editDistance(a: string, b: string, most: number): number {
  if (Math.abs(a.length - b.length) > most) return most + 1;
  let previous = Array.from({ length: b.length + 1 }, (_, index) => index);
  let beforePrevious: number[] = [];
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const change = a[i - 1] === b[j - 1] ? 0 : 1;
      let best = Math.min(previous[j]! + 1, row[j - 1]! + 1, previous[j - 1]! + change);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) {
        best = Math.min(best, beforePrevious[j - 2]! + 1);
      }
      row.push(best);
    }
    beforePrevious = previous;
    previous = row;
  }
  return Math.min(previous[b.length]!, most + 1);
}
