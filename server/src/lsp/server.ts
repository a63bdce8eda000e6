import {
  type CancellationToken,
  type ClientCapabilities,
  type Connection,
  LSPErrorCodes,
  PositionEncodingKind,
  ResponseError,
  type ServerCapabilities,
  TextDocumentSyncKind,
  TextDocuments,
} from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { SOURCE } from './convert.ts';
import type { Server } from './feature.ts';
import { FEATURES } from './features/all.ts';
import { openNotes } from './open-notes.ts';

/**
 * Serves an editor over a connection until it closes. Reads no file and knows no machine: the connection may lead
 * to a process or to a worker of a browser.
 */
export function startServer(connection: Connection): void {
  const documents = new TextDocuments(TextDocument);
  const lookAt = openNotes();
  documents.listen(connection);
  connection.onInitialize(({ capabilities: client }) => {
    const server = serverFor(connection, client);
    for (const feature of FEATURES) feature.listen(server);
    return { capabilities: capabilitiesFor(client), serverInfo: { name: SOURCE } };
  });
  connection.listen();

  function serverFor(connection: Connection, client: ClientCapabilities): Server {
    return {
      connection,
      client,
      documents,
      note(uri) {
        const document = documents.get(uri);
        return document === undefined || document.languageId !== 'markdown' ? null : lookAt(document);
      },
      answering: (what, none, work) => (params, token: CancellationToken) => {
        if (token.isCancellationRequested)
          return new ResponseError<never>(LSPErrorCodes.RequestCancelled, what);
        try {
          return work(params);
        } catch (error) {
          connection.console.error(`${what} failed: ${error instanceof Error ? error.stack : String(error)}`);
          return none;
        }
      },
    };
  }
}

function capabilitiesFor(client: ClientCapabilities): ServerCapabilities {
  return {
    positionEncoding: PositionEncodingKind.UTF16,
    textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental },
    ...Object.assign({}, ...FEATURES.map(feature => feature.announced(client))),
  };
}
