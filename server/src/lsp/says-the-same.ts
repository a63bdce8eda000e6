import { checkedNote, checkNote } from '../checks/check.ts';
import type { Finding } from '../checks/finding.ts';
import { readNote } from '../language/fences.ts';
import type { NoteStructure } from '../language/syntax.ts';
import { groupsOf, notePart, notePartAt } from './note-part.ts';
import { noteStructure } from './note-structure.ts';
import type { OpenNote } from './open-notes.ts';

/**
 * Whether a note says the same when the name at a place is another: fault is found with the same lines, and the same
 * fault.
 *
 * Only the blocks are looked at that refer to one another there, before or after. A block apart from them holds neither
 * name.
 */
export function saysTheSame(open: OpenNote, renamed: string, offset: number): boolean {
  const { text, settings } = open;
  const before = noteStructure(open);
  const after = readNote(renamed);
  const part = notePartAt(open, offset);
  if (part === null || !areAlike(before, after))
    return outcomeOf(open.checked.findings) === outcomeOf(checkNote(renamed, settings).findings);
  const inPart = new Set(part.fences.map(fence => before.fences.indexOf(fence)));
  const places = new Map(after.fences.map((fence, index) => [fence, index]));
  const spans = new Map(after.codeSpans.map((span, index) => [span, index]));
  const touched = groupsOf(renamed, after).filter(({ fences }) =>
    fences.some(fence => inPart.has(places.get(fence)!)),
  );
  const outcome = (note: string, structure: NoteStructure): string => {
    const inOrder = (a: number, b: number): number => a - b;
    const fences = touched.flatMap(group => group.fences.map(fence => places.get(fence)!)).sort(inOrder);
    const codeSpans = touched.flatMap(group => group.codeSpans.map(span => spans.get(span)!)).sort(inOrder);
    const group = {
      fences: fences.map(index => structure.fences[index]!),
      codeSpans: codeSpans.map(index => structure.codeSpans[index]!),
    };
    return outcomeOf(checkedNote(notePart(note, structure, group, settings).check()).findings);
  };
  return outcome(text, before) === outcome(renamed, after);
}

/** Whether the blocks of one can be found in the other by their numbers, and nothing is wrong with either as a whole. */
function areAlike(before: NoteStructure, after: NoteStructure): boolean {
  return (
    before.fences.length === after.fences.length &&
    before.codeSpans.length === after.codeSpans.length &&
    (before.problems ?? []).length + (after.problems ?? []).length === 0
  );
}

/** What must stay as it is: which lines are found fault with, and what is right there. A working grows stale, which is no harm. */
function outcomeOf(findings: readonly Finding[]): string {
  return findings
    .filter(({ rule }) => rule !== 'stale-working')
    .map(({ rule, slip, waived }) => [rule, slip, waived].join(' '))
    .join('\n');
}
