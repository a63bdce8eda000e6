import { factsDigest } from '../checks/facts-digest.ts';
import type { NoteCheck } from '../checks/note-check.ts';
import { blockOfComment } from '../checks/working-state.ts';
import { lineBreakOf } from '../language/line-edits.ts';
import type { Edit } from '../language/problem.ts';
import type { WorkingComment } from '../language/working-comments.ts';
import { plainWords } from '../render/plain-words.ts';
import { belowBlock, calledInComment, prefixed } from '../workings/below-block.ts';
import type { Figure } from './block-figure.ts';

/**
 * Puts the image line of a block's figure below it, between its comment lines.
 *
 * `path` leads from the note to the file, with `/`. An image of the same file is renewed where it stands; nothing
 * comes back where it is as it should be, or nobody can tell how far its comment reaches.
 */
export function insertFigureEdits(
  note: NoteCheck,
  block: number,
  figure: Pick<Figure, 'alternative'>,
  path: string,
): readonly Edit[] {
  const image = imageLine(figure.alternative, path);
  const lines = [
    `<!-- figure: ${calledInComment(note, block)}${factsDigest(note.facts.block(block))} -->`,
    ...['', image, '', '<!-- end figure -->'],
  ];
  const standing = figureBelow(note, block, path);
  if (standing === null) return [belowBlock(note, block, lines)];
  if (standing.end === null) return [];
  const { fence } = note.measurements[block]!;
  const span = { start: standing.opening.start, end: standing.end.end };
  const newText = prefixed(lines, standing.prefix)
    .join(lineBreakOf(note.text, fence))
    .slice(standing.prefix.length);
  return note.text.slice(span.start, span.end) === newText ? [] : [{ span, newText }];
}

/** `![alternative](path)` */
export function imageLine(alternative: string, path: string): string {
  const words = plainWords(alternative).replace(/[\\[\]`*_<>&$|~#!]/g, '\\$&');
  return `![${words}](${pathInLink(path)})`;
}

function pathInLink(path: string): string {
  const parts = path.replace(/\p{Cs}/gu, '').split('/');
  return parts.map(part => encodeURIComponent(part).replace(/[()'*!~]/g, hexOf)).join('/');
}

function hexOf(sign: string): string {
  return `%${sign.charCodeAt(0).toString(16).toUpperCase()}`;
}

/** The comment lines around a block's image of a file; null where it has none. */
function figureBelow(note: NoteCheck, block: number, path: string): WorkingComment | null {
  const link = `](${pathInLink(path)})`;
  return (
    note.comments.find(
      comment =>
        comment.kind === 'figure' &&
        blockOfComment(note, comment) === block &&
        (comment.end === null || note.text.slice(comment.opening.end, comment.end.start).includes(link)),
    ) ?? null
  );
}
