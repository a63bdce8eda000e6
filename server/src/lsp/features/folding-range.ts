import { type FoldingRange, FoldingRangeKind, type FoldingRangeParams } from 'vscode-languageserver';
import type { Span } from '../../language/syntax.ts';
import { rangeFrom } from '../convert.ts';
import type { Feature } from '../feature.ts';
import type { OpenNote } from '../open-notes.ts';

/** Blocks fold to their first lines, and so do the workings and figures below them. */
export const foldingRange: Feature = {
  announced: () => ({ foldingRangeProvider: true }),
  listen(server) {
    server.connection.onFoldingRanges(
      server.answering<FoldingRangeParams, FoldingRange[]>('folding', [], ({ textDocument }) => {
        const open = server.note(textDocument.uri);
        return open === null ? [] : foldingRangesOf(open);
      }),
    );
  },
};

export function foldingRangesOf({ note, document }: OpenNote): FoldingRange[] {
  if (note === null) return [];
  const fold = (span: Span, kind?: FoldingRangeKind): FoldingRange[] => {
    const { start, end } = rangeFrom(document, span);
    if (end.line <= start.line) return [];
    return [{ startLine: start.line, endLine: end.line, ...(kind === undefined ? {} : { kind }) }];
  };
  return [
    ...note.measurements.slice(0, note.fences).flatMap(({ fence }) => fold(fence.span)),
    ...note.comments.flatMap(({ opening, end }) =>
      end === null ? [] : fold({ start: opening.start, end: end.end }, FoldingRangeKind.Region),
    ),
  ];
}
