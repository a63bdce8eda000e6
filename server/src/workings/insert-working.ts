import { factsDigest } from '../checks/facts-digest.ts';
import type { NoteCheck } from '../checks/note-check.ts';
import { blockOfComment, workingState } from '../checks/working-state.ts';
import { lineBreakOf } from '../language/line-edits.ts';
import type { Edit } from '../language/problem.ts';
import { belowBlock, calledInComment, prefixed } from './below-block.ts';
import type { WorkingOptions } from './working.ts';
import { workingMarkdown } from './working-text.ts';

const USUAL: WorkingOptions = { way: null };

/**
 * Puts the worked solution of a block below it, between its comment lines.
 *
 * Where a working stands already, it is renewed if it is stale, and else left as it is: its words may have been changed
 * by hand. Nothing comes back where nothing can be worked out, or nobody can tell how far a working reaches.
 */
export function insertWorkingEdits(
  note: NoteCheck,
  block: number,
  options: WorkingOptions = USUAL,
): readonly Edit[] {
  const standing = workingBelow(note, block);
  if (standing !== null) return renewWorkingEdits(note, standing, options);
  const lines = workingLines(note, block, options);
  return lines === null ? [] : [belowBlock(note, block, lines)];
}

/**
 * Writes a stale working anew, by the number of its comment in the note; nothing comes back where it still fits, where
 * its block is gone or says that it shall stay, where nobody can tell how far it reaches, and where nothing can be worked out any more.
 */
export function renewWorkingEdits(
  note: NoteCheck,
  commentIndex: number,
  options: WorkingOptions = USUAL,
): readonly Edit[] {
  const comment = note.comments[commentIndex];
  if (comment === undefined || comment.kind !== 'working' || comment.end === null) return [];
  const state = workingState(note, comment);
  if (state.kind !== 'stale' || isKept(note, state.block)) return [];
  const lines = workingLines(note, state.block, options);
  if (lines === null) return [];
  const { fence } = note.measurements[state.block]!;
  const newText = prefixed(lines, comment.prefix)
    .join(lineBreakOf(note.text, fence))
    .slice(comment.prefix.length);
  return [{ span: { start: comment.opening.start, end: comment.end.end }, newText }];
}

/** Whether the author of a block wants to keep its working as it stands, stale or not. */
export function isKept(note: NoteCheck, block: number): boolean {
  return note.measurements[block]!.waivers.some(({ rule }) => rule === 'stale-working');
}

/** The number of the comment with a block's working; null where it has none. */
export function workingBelow(note: NoteCheck, block: number): number | null {
  const found = note.comments.findIndex(
    comment => comment.kind === 'working' && blockOfComment(note, comment) === block,
  );
  return found === -1 ? null : found;
}

/** A block's working with its comment lines; null where there is none. */
function workingLines(note: NoteCheck, block: number, options: WorkingOptions): readonly string[] | null {
  const markdown = workingMarkdown(note, block, options);
  if (markdown === '') return null;
  const digest = factsDigest(note.facts.block(block));
  return [
    ...[`<!-- working: ${calledInComment(note, block)}${digest} -->`, ''],
    ...markdown.split('\n'),
    ...['', '<!-- end working -->'],
  ];
}
