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
import type { OpenNote } from '../open-notes.ts';

/** How long a writer pauses, in milliseconds, before new findings are shown. */
const PAUSE = 200;

/** How long before the line that is being typed is taken for finished. */
const FINISHED = 900;

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
  const { isFinished, waitFor } = typedLines(server);
  const answer = server.answering<DocumentDiagnosticParams, DocumentDiagnosticReport>(
    'checking the note',
    { kind: DocumentDiagnosticReportKind.Full, items: [] },
    ({ textDocument, previousResultId }) => {
      const open = server.note(textDocument.uri);
      if (open === null) return { kind: DocumentDiagnosticReportKind.Full, items: [] };
      const unfinished = isFinished(open) ? null : open.typedLine;
      const resultId = `${open.serial}${unfinished === null ? '' : ' typing'}`;
      if (resultId === previousResultId) return { kind: DocumentDiagnosticReportKind.Unchanged, resultId };
      const items = diagnosticsOf(open, unfinished);
      if (items.length < open.checked.findings.length && unfinished !== null) waitFor(textDocument.uri, open);
      return { kind: DocumentDiagnosticReportKind.Full, resultId, items };
    },
  );
  server.connection.languages.diagnostics.on(async (params, token) => {
    const { uri } = params.textDocument;
    // An editor asks once more when a note was closed, and shows what it gets for as long as it stays so.
    const isOpen = server.documents.get(uri) !== undefined;
    return (isOpen ? null : await server.closedNotes.report(uri)) ?? answer(params, token);
  });
  if (mayRefresh(server)) server.settings.onChange(() => refresh(server));
}

function mayRefresh({ client }: Server): boolean {
  return client.workspace?.diagnostics?.refreshSupport === true;
}

function refresh({ connection }: Server): void {
  connection.sendRequest('workspace/diagnostic/refresh').catch(() => {
    // An editor that refuses shows what it has.
  });
}

/**
 * The line at the cursor is no error while it is being typed: its findings go at once, and come when the writer
 * pauses. An editor that cannot be told to ask again gets them at once.
 */
function typedLines(server: Server): {
  isFinished(open: OpenNote): boolean;
  waitFor(uri: string, open: OpenNote): void;
} {
  const waiting = new Map<string, ReturnType<typeof setTimeout>>();
  const finished = new WeakSet<OpenNote>();
  server.documents.onDidClose(({ document: { uri } }) => {
    clearTimeout(waiting.get(uri));
    waiting.delete(uri);
  });
  return {
    isFinished: open => open.typedLine === null || finished.has(open) || !mayRefresh(server),
    waitFor(uri, open) {
      clearTimeout(waiting.get(uri));
      const later = setTimeout(() => {
        waiting.delete(uri);
        finished.add(open);
        refresh(server);
      }, FINISHED);
      waiting.set(uri, later);
    },
  };
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
