import {
  type DocumentHighlight,
  DocumentHighlightKind,
  type DocumentHighlightParams,
} from 'vscode-languageserver';
import { offsetFrom, rangeFrom } from '../convert.ts';
import type { Feature } from '../feature.ts';
import { namedAt } from '../named-at.ts';
import type { OpenNote } from '../open-notes.ts';

/** Marks all places of the name at the cursor: those that give it as written, the others as read. */
export const documentHighlight: Feature = {
  announced: () => ({ documentHighlightProvider: true }),
  listen(server) {
    server.connection.onDocumentHighlight(
      server.answering<DocumentHighlightParams, DocumentHighlight[]>(
        'marking the name',
        [],
        ({ textDocument, position }) => {
          const open = server.note(textDocument.uri);
          return open === null ? [] : highlightsAt(open, offsetFrom(open.document, position));
        },
      ),
    );
  },
};

export function highlightsAt(open: OpenNote, offset: number): DocumentHighlight[] {
  return (namedAt(open, offset)?.all ?? []).map(({ span, isDeclaration }) => ({
    range: rangeFrom(open.document, span),
    kind: isDeclaration ? DocumentHighlightKind.Write : DocumentHighlightKind.Read,
  }));
}
