import type { WorkingComment } from '../language/working-comments.ts';
import { factsDigest } from './facts-digest.ts';
import type { NoteCheck } from './note-check.ts';

/** How a working stands to its block; `block` is the block's number in the note. */
export type WorkingState =
  | { readonly kind: 'fits'; readonly block: number }
  | { readonly kind: 'stale'; readonly block: number }
  | { readonly kind: 'no-block' }
  /** Nobody can tell how far it reaches. */
  | { readonly kind: 'unclear'; readonly block: number | null };

/** Whether a working still belongs to what its block records. */
export function workingState(note: NoteCheck, comment: WorkingComment): WorkingState {
  const block = blockOfComment(note, comment);
  if (comment.trouble !== null) return { kind: 'unclear', block };
  if (block === null) return { kind: 'no-block' };
  const fits = comment.digest === factsDigest(note.facts.block(block));
  return fits ? { kind: 'fits', block } : { kind: 'stale', block };
}

/** The number of the block that a working or a figure belongs to; null where the note has no such block. */
export function blockOfComment(note: NoteCheck, { fenceStart }: WorkingComment): number | null {
  if (fenceStart === null) return null;
  // Blocks stand in the order of the note, and a note may have thousands of them and of workings.
  let low = 0;
  for (let high = note.fences; low < high; ) {
    const middle = (low + high) >> 1;
    if (note.measurements[middle]!.fence.span.start < fenceStart) low = middle + 1;
    else high = middle;
  }
  return low < note.fences && note.measurements[low]!.fence.span.start === fenceStart ? low : null;
}
