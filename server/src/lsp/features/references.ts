import type { Location, ReferenceParams } from 'vscode-languageserver';
import { offsetFrom, rangeFrom } from '../convert.ts';
import type { Feature } from '../feature.ts';
import { namedAt } from '../named-at.ts';
import type { OpenNote } from '../open-notes.ts';

/** All places where a block, a row or a quantity is used. */
export const references: Feature = {
  announced: () => ({ referencesProvider: true }),
  listen(server) {
    server.connection.onReferences(
      server.answering<ReferenceParams, Location[]>(
        'finding where the name is used',
        [],
        ({ textDocument, position, context }) => {
          const open = server.note(textDocument.uri);
          if (open === null) return [];
          return referencesAt(open, offsetFrom(open.document, position), context.includeDeclaration);
        },
      ),
    );
  },
};

export function referencesAt(open: OpenNote, offset: number, withDeclarations: boolean): Location[] {
  const places = namedAt(open, offset)?.all ?? [];
  return places
    .filter(({ isDeclaration }) => withDeclarations || !isDeclaration)
    .map(({ span }) => ({ uri: open.document.uri, range: rangeFrom(open.document, span) }));
}
