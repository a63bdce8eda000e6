import { blockGroups } from '../checks/block-groups.ts';
import { checkedNote } from '../checks/check.ts';
import { blockNamesIn, examineStructure } from '../checks/examine.ts';
import { factsDigest } from '../checks/facts-digest.ts';
import type { NoteCheck } from '../checks/note-check.ts';
import { readNote } from '../language/fences.ts';
import type { Edit } from '../language/problem.ts';
import type { Span } from '../language/syntax.ts';

/** What a check says of a note with edits made in one of its blocks. */
export interface TriedEdits {
  /** The places of findings in the note as it would be. */
  readonly faulted: readonly Span[];
  /** Where the new text of each edit would stand, in the order of the edits. */
  readonly places: readonly Span[];
  /** Whether the block would say the same as before. */
  readonly keepsFacts: boolean;
}

/**
 * Checks a note as it would be with some edits made: what is written for somebody must not be found fault with
 * afterwards. The edits must not overlap; those at one place come in the order in which their texts shall stand.
 */
export function tryEdits(note: NoteCheck, block: number, edits: readonly Edit[]): TriedEdits {
  const places = new Array<Span>(edits.length);
  const inOrder = [...edits.keys()].sort((a, b) => edits[a]!.span.start - edits[b]!.span.start || a - b);
  let text = '';
  let from = 0;
  for (const at of inOrder) {
    const { span, newText } = edits[at]!;
    text += note.text.slice(from, span.start);
    places[at] = { start: text.length, end: text.length + newText.length };
    text += newText;
    from = span.end;
  }
  text += note.text.slice(from);
  return { ...checkedAfter(note, block, text), places };
}

/** Only the block is checked, with those that it refers to and those that refer to it. */
function checkedAfter(note: NoteCheck, block: number, text: string): Omit<TriedEdits, 'places'> {
  const { fences, codeSpans } = readNote(text);
  const fence = fences[block];
  const group = blockGroups(text, fences, codeSpans).find(each => each.fences.some(one => one === fence));
  if (fence === undefined || group === undefined || fences.length !== note.fences)
    return { faulted: [], keepsFacts: false };
  const after = examineStructure(text, group, {
    blockNames: blockNamesIn(fences),
    comments: [],
    settings: note.settings,
  });
  const facts = after.facts.block(group.fences.indexOf(fence));
  return {
    faulted: checkedNote(after)
      .findings.filter(({ waived }) => waived === null)
      .map(({ span }) => span),
    keepsFacts: factsDigest(facts) === factsDigest(note.facts.block(block)),
  };
}
