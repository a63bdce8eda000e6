import { expect } from 'vitest';
import { withEdits } from '../../server/src/actions/settled-edits.ts';
import { checkedNote } from '../../server/src/checks/check.ts';
import { examineNote } from '../../server/src/checks/examine.ts';
import { factsDigest } from '../../server/src/checks/facts-digest.ts';
import type { NoteCheck } from '../../server/src/checks/note-check.ts';
import type { Edit } from '../../server/src/language/problem.ts';
import { chainInLineEdits } from '../../server/src/workings/chain-in-line.ts';
import { insertLinesEdits } from '../../server/src/workings/insert-lines.ts';
import { insertWorkingEdits } from '../../server/src/workings/insert-working.ts';

/** The edits for one block of a note, or for all of them together. */
export type EditsOf = (note: NoteCheck, block: number) => readonly Edit[];

/** A note with something inserted into every block. */
export function inserted(text: string, editsOf: EditsOf): string {
  const note = examineNote(text);
  if (note === null) return text;
  const edits = Array.from({ length: note.fences }, (_, block) => editsOf(note, block)).flat();
  return withEdits(text, edits);
}

const RESTING: ReadonlySet<string> = new Set(['wrong-value', 'carried-forward', 'early-rounding']);

/** What a note is found fault with, each fault as often as it is found; places move, so they are left out. */
export function faults(text: string): readonly string[] {
  const note = examineNote(text);
  if (note === null) return [];
  return checkedNote(note)
    .findings.filter(({ rule, waived }) => waived === null && rule !== 'unused-waiver')
    .map(({ rule, block, term, row }) => [RESTING.has(rule) ? 'wrong' : rule, block, term, row].join(' | '));
}

/**
 * The findings of a note that it did not have before. A waiver may lose its finding, which is no fault of what is
 * inserted; and where one wrong line is mended, what rests on it is told in another way.
 */
export function newFaults(before: readonly string[], after: string): readonly string[] {
  const known = [...before];
  return faults(after).filter(fault => {
    const at = known.indexOf(fault);
    if (at !== -1) known.splice(at, 1);
    return at === -1;
  });
}

/** The digests of a note's blocks. */
export function digests(text: string): readonly string[] {
  const note = examineNote(text);
  return note === null ? [] : note.facts.blocks().slice(0, note.fences).map(factsDigest);
}

/** All that holds of every insertion into every note: no new finding, nothing to do a second time, the same facts. */
export function expectSilent(text: string): void {
  const before = faults(text);
  const facts = digests(text);
  for (const [name, editsOf] of Object.entries(WAYS)) {
    const once = inserted(text, editsOf);
    expect(newFaults(before, once), `${name}:\n${once}`).toEqual([]);
    expect(digests(once), `${name}, the facts:\n${once}`).toEqual(facts);
    expect(inserted(once, editsOf), `${name}, twice`).toBe(once);
  }
}

const WAYS: Readonly<Record<string, EditsOf>> = {
  working: insertWorkingEdits,
  'working by the scales': (note, block) => insertWorkingEdits(note, block, { way: 'scales' }),
  lines: insertLinesEdits,
  chains: (note, block) =>
    note.measurements[block]!.claims.flatMap(claim => chainInLineEdits(note, block, claim)),
};
