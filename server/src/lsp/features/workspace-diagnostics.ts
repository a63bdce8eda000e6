import {
  LSPErrorCodes,
  ResponseError,
  type WorkspaceDiagnosticReport,
  type WorkspaceDocumentDiagnosticReport,
} from 'vscode-languageserver';
import type { Feature, Server } from '../feature.ts';

/**
 * Findings of the notes that nobody has opened, for editors that hand them over (`notes`).
 *
 * The answer is held back until there is something to tell, for each one makes the editor ask again.
 */
export const workspaceDiagnostics: Feature = {
  announced: () => ({}),
  listen(server) {
    if (!server.offers.notes || server.client.textDocument?.diagnostic === undefined) return;
    const notes = server.closedNotes;
    const wake = listenForNews(server);
    let latest = {};
    server.connection.languages.diagnostics.onWorkspace(
      async ({ previousResultIds }, token, _progress, partly) => {
        const own = {};
        latest = own;
        wake.all();
        const isOver = (): boolean => token.isCancellationRequested || latest !== own;
        token.onCancellationRequested(wake.all);
        const told = new Map(previousResultIds.map(({ uri, value }) => [uri, value]));
        const items: WorkspaceDocumentDiagnosticReport[] = [];
        const tell = (reports: WorkspaceDocumentDiagnosticReport[]): void => {
          if (partly === undefined) items.push(...reports);
          else partly.report({ items: reports });
        };
        while (!isOver()) {
          // What happens from here on ends the wait below.
          const news = wake.next();
          if ((await notes.tellNews(told, tell, isOver)) > 0) break;
          if (!isOver()) await news;
        }
        return answer(items, token.isCancellationRequested);
      },
    );
  },
};

function answer(
  items: WorkspaceDocumentDiagnosticReport[],
  isCancelled: boolean,
): WorkspaceDiagnosticReport | ResponseError<never> {
  return isCancelled && items.length === 0
    ? new ResponseError<never>(LSPErrorCodes.RequestCancelled, 'checking the notes of the workspace')
    : { items };
}

/** Whoever waits for news. */
interface Wake {
  /** Settles as soon as anything happens. */
  next(): Promise<void>;
  all(): void;
}

function listenForNews({ connection, documents, settings, closedNotes: notes }: Server): Wake {
  let waiting: (() => void)[] = [];
  const all = (): void => {
    const settled = waiting;
    waiting = [];
    for (const settle of settled) settle();
  };
  const changed = (uris: readonly string[] | null): void => {
    notes.changed(uris);
    all();
  };
  connection.onNotification('leastwise/notesChanged', (params: { readonly uris?: unknown } | null) => {
    const uris = params?.uris;
    changed(Array.isArray(uris) ? uris.filter(uri => typeof uri === 'string') : null);
  });
  connection.onDidChangeWatchedFiles(({ changes }) => {
    changed(changes.map(({ uri }) => uri).filter(uri => /\.(?:md|markdown)$/i.test(uri)));
  });
  settings.onChange(() => changed(null));
  documents.onDidClose(({ document: { uri } }) => {
    notes.closed(uri);
    all();
  });
  return { all, next: () => new Promise(settle => waiting.push(settle)) };
}
