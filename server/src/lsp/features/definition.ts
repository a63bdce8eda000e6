import type { DefinitionParams, Location } from 'vscode-languageserver';
import { offsetFrom, rangeFrom } from '../convert.ts';
import type { Feature } from '../feature.ts';
import { namedAt } from '../named-at.ts';
import type { OpenNote } from '../open-notes.ts';

/** Leads from the name of a block, a row or a quantity to the line that gives it. */
export const definition: Feature = {
  announced: () => ({ definitionProvider: true }),
  listen(server) {
    server.connection.onDefinition(
      server.answering<DefinitionParams, Location | null>(
        'finding where the name is given',
        null,
        ({ textDocument, position }) => {
          const open = server.note(textDocument.uri);
          return open === null ? null : definitionAt(open, offsetFrom(open.document, position));
        },
      ),
    );
  },
};

export function definitionAt(open: OpenNote, offset: number): Location | null {
  const first = namedAt(open, offset)?.all.find(({ isDeclaration }) => isDeclaration);
  if (first === undefined) return null;
  return { uri: open.document.uri, range: rangeFrom(open.document, first.span) };
}
