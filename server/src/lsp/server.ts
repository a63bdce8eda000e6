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
import { closedNotes } from './closed-notes.ts';
import { SOURCE } from './convert.ts';
import type { Offers, Server } from './feature.ts';
import { FEATURES } from './features/all.ts';
import { noteDocuments } from './note-document.ts';
import { openNotes } from './open-notes.ts';
import { type FoundConfigs, type SettingsStore, settingsStore } from './settings-store.ts';

/**
 * Serves an editor over a connection until it closes. Reads no file and knows no machine: the connection may lead
 * to a process or to a worker of a browser. A process hands over how it finds the configurations on its disk.
 */
export function startServer(connection: Connection, configs: FoundConfigs | null = null): void {
  const documents = new TextDocuments(noteDocuments);
  const lookAt = openNotes();
  documents.listen(connection);
  connection.onInitialize(params => {
    const { capabilities: client } = params;
    const offers = offersOf(params.initializationOptions);
    const server = serverFor(connection, client, offers, settingsStore(connection, params, configs));
    for (const feature of FEATURES) feature.listen(server);
    return { capabilities: capabilitiesFor(client, offers), serverInfo: { name: SOURCE } };
  });
  connection.listen();

  function serverFor(
    connection: Connection,
    client: ClientCapabilities,
    offers: Offers,
    settings: SettingsStore,
  ): Server {
    return {
      connection,
      client,
      documents,
      offers,
      settings,
      closedNotes: closedNotes({ connection, documents, settings }),
      note(uri) {
        const document = documents.get(uri);
        return document === undefined || document.languageId !== 'markdown'
          ? null
          : lookAt(document, settings.known(uri));
      },
      answering: (what, none, work) => (params, token: CancellationToken) => {
        const answer = () => {
          if (token.isCancellationRequested)
            return new ResponseError<never>(LSPErrorCodes.RequestCancelled, what);
          try {
            return work(params);
          } catch (error) {
            connection.console.error(
              `${what} failed: ${error instanceof Error ? error.stack : String(error)}`,
            );
            return none;
          }
        };
        const uri = uriOf(params);
        const known = uri === null ? null : settings.of(uri);
        return known instanceof Promise ? known.then(answer) : answer();
      },
    };
  }
}

/** The note that somebody asks about: by its address alone, as a document, or with what was kept of it. */
function uriOf(params: unknown): string | null {
  if (typeof params === 'string') return params;
  const { textDocument, data } = (params ?? {}) as {
    readonly textDocument?: { readonly uri?: unknown };
    readonly data?: { readonly uri?: unknown };
  };
  const uri = textDocument?.uri ?? data?.uri;
  return typeof uri === 'string' ? uri : null;
}

function offersOf(options: unknown): Offers {
  return { notes: (options as { readonly notes?: unknown } | null | undefined)?.notes === true };
}

function capabilitiesFor(client: ClientCapabilities, offers: Offers): ServerCapabilities {
  return {
    positionEncoding: PositionEncodingKind.UTF16,
    textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental },
    ...Object.assign({}, ...FEATURES.map(feature => feature.announced(client, offers))),
  };
}
