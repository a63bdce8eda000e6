import type { Edit } from '../language/problem.ts';
import { inOrder } from './settled-edits.ts';

/** A text as pieces: what was kept of the note as it was, and what was written since. */
export type Piece =
  | { readonly kind: 'kept'; readonly start: number; readonly end: number }
  | { readonly kind: 'written'; readonly text: string };

/** The pieces after more edits, whose places are those of the text that the pieces make. */
export function followedEdits(pieces: readonly Piece[], edits: readonly Edit[]): readonly Piece[] {
  const made: Piece[] = [];
  const rest = [...pieces].reverse();
  let at = 0;
  const take = (until: number, keep: boolean): void => {
    while (at < until) {
      const piece = rest.pop();
      if (piece === undefined) return;
      const length = lengthOf(piece);
      const wanted = Math.min(length, until - at);
      if (keep) made.push(partOf(piece, 0, wanted));
      if (wanted < length) rest.push(partOf(piece, wanted, length));
      at += wanted;
    }
  };
  for (const { span, newText } of inOrder(edits)) {
    take(span.start, true);
    take(span.end, false);
    if (newText !== '') made.push({ kind: 'written', text: newText });
  }
  return [...made, ...rest.reverse()];
}

/** The edits of the note that make the text of the pieces: what was kept is not touched. */
export function editsOfPieces(text: string, pieces: readonly Piece[]): readonly Edit[] {
  const edits: Edit[] = [];
  let at = 0;
  let newText = '';
  const end = { kind: 'kept', start: text.length, end: text.length } as const;
  for (const piece of [...pieces, end]) {
    if (piece.kind === 'written') {
      newText += piece.text;
      continue;
    }
    if (text.slice(at, piece.start) !== newText)
      edits.push({ span: { start: at, end: piece.start }, newText });
    at = piece.end;
    newText = '';
  }
  return edits;
}

function lengthOf(piece: Piece): number {
  return piece.kind === 'kept' ? piece.end - piece.start : piece.text.length;
}

function partOf(piece: Piece, from: number, to: number): Piece {
  return piece.kind === 'kept'
    ? { kind: 'kept', start: piece.start + from, end: piece.start + to }
    : { kind: 'written', text: piece.text.slice(from, to) };
}
