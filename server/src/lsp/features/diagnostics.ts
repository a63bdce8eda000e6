import {
  CancellationToken,
  type DocumentDiagnosticParams,
  type DocumentDiagnosticReport,
  DocumentDiagnosticReportKind,
  type PublishDiagnosticsParams,
} from 'vscode-languageserver';
import { SOURCE } from '../convert.ts';
import type { Feature, Server } from '../feature.ts';
import { diagnosticsOf } from '../note-diagnostics.ts';

/** How long a writer pauses, in milliseconds, before new findings are shown. */
const PAUSE = 200;

/** Findings for editors that ask for them, and, unasked, for those that do not. */
export const diagnostics: Feature = {
  announced: (client, offers) =>
    client.textDocument?.diagnostic === undefined
      ? {}
      : {
          diagnosticProvider: {
            identifier: SOURCE,
            // References never leave a note.
            interFileDependencies: false,
            workspaceDiagnostics: offers.notes,
          },
        },
  listen(server) {
    if (server.client.textDocument?.diagnostic === undefined) push(server);
    else pull(server);
  },
};

function pull(server: Server): void {
  const answer = server.answering<DocumentDiagnosticParams, DocumentDiagnosticReport>(
    'checking the note',
    { kind: DocumentDiagnosticReportKind.Full, items: [] },
    ({ textDocument, previousResultId }) => {
      const open = server.note(textDocument.uri);
      if (open === null) return { kind: DocumentDiagnosticReportKind.Full, items: [] };
      const resultId = String(open.serial);
      if (resultId === previousResultId) return { kind: DocumentDiagnosticReportKind.Unchanged, resultId };
      return { kind: DocumentDiagnosticReportKind.Full, resultId, items: diagnosticsOf(open) };
    },
  );
  server.connection.languages.diagnostics.on(async (params, token) => {
    const { uri } = params.textDocument;
    // An editor asks once more when a note was closed, and shows what it gets for as long as it stays so.
    const isOpen = server.documents.get(uri) !== undefined;
    return (isOpen ? null : await server.closedNotes.report(uri)) ?? answer(params, token);
  });
  if (server.client.workspace?.diagnostics?.refreshSupport === true)
    server.settings.onChange(() => {
      server.connection.sendRequest('workspace/diagnostic/refresh').catch(() => {
        // An editor that refuses shows what it has.
      });
    });
}

function push(server: Server): void {
  const { connection, documents } = server;
  const waiting = new Map<string, ReturnType<typeof setTimeout>>();
  /** Which check of a note was sent last, by its address. */
  const sent = new Map<string, number>();
  const forget = (uri: string) => {
    clearTimeout(waiting.get(uri));
    waiting.delete(uri);
  };
  const send = (params: PublishDiagnosticsParams) => {
    connection.sendDiagnostics(params).catch(() => {
      // The editor is gone, as the end of the connection says anyway.
    });
  };
  const check = server.answering<string, void>('checking the note', undefined, uri => {
    forget(uri);
    const open = server.note(uri);
    if (open === null || sent.get(uri) === open.serial) return;
    sent.set(uri, open.serial);
    send({ uri, version: open.document.version, diagnostics: diagnosticsOf(open) });
  });
  documents.onDidChangeContent(({ document: { uri } }) => {
    forget(uri);
    if (!sent.has(uri)) void check(uri, CancellationToken.None);
    else waiting.set(uri, setTimeout(check, PAUSE, uri, CancellationToken.None));
  });
  server.settings.onChange(() => {
    for (const uri of sent.keys()) void check(uri, CancellationToken.None);
  });
  documents.onDidClose(({ document: { uri } }) => {
    forget(uri);
    if (sent.delete(uri)) send({ uri, diagnostics: [] });
  });
}
