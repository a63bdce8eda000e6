import {
  CancellationToken,
  type Diagnostic,
  type DocumentDiagnosticParams,
  type DocumentDiagnosticReport,
  DocumentDiagnosticReportKind,
  type PublishDiagnosticsParams,
} from 'vscode-languageserver';
import { diagnosticFrom, SOURCE } from '../convert.ts';
import type { Feature, Server } from '../feature.ts';
import type { OpenNote } from '../open-notes.ts';

/** How long a writer pauses, in milliseconds, before new findings are shown. */
const PAUSE = 200;

/** Findings for editors that ask for them, and, unasked, for those that do not. */
export const diagnostics: Feature = {
  announced: client =>
    client.textDocument?.diagnostic === undefined
      ? {}
      : {
          diagnosticProvider: {
            identifier: SOURCE,
            // References never leave a note.
            interFileDependencies: false,
            workspaceDiagnostics: false,
          },
        },
  listen(server) {
    if (server.client.textDocument?.diagnostic === undefined) push(server);
    else pull(server);
  },
};

/** What an editor underlines in a note; waived findings are not among it. */
export function diagnosticsOf({ document, checked }: OpenNote): Diagnostic[] {
  return checked.findings
    .filter(finding => finding.waived === null)
    .map(finding => diagnosticFrom(document, finding));
}

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
  server.connection.languages.diagnostics.on(answer);
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
    if (!sent.has(uri)) check(uri, CancellationToken.None);
    else waiting.set(uri, setTimeout(check, PAUSE, uri, CancellationToken.None));
  });
  documents.onDidClose(({ document: { uri } }) => {
    forget(uri);
    if (sent.delete(uri)) send({ uri, diagnostics: [] });
  });
}
