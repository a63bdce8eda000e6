import { type CancellationToken, Disposable, EventEmitter, Uri, workspace } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { findNotes } from './find-notes.ts';
import { IGNORE_NAME, nearestConfig, nearestFile } from './nearest-config.ts';
import { readText } from './read-text.ts';
import { watchFiles } from './watch-files.ts';

/** What the server is told when it starts: that files come by way of the editor. */
export const SERVES_FILES = { configFiles: true, ignoreFiles: true, notes: true } as const;

/** The files of the workspace as far as the server wants them. */
export interface ServedFiles extends Disposable {
  /**
   * Has the server look at all notes of the workspace anew, also where it was not to do so by itself.
   *
   * Gives their addresses once the server knows them; null where that was cancelled.
   */
  handOverAll(token: CancellationToken): Promise<readonly string[] | null>;
}

/** Answers what the server asks about files; it reads none itself, and they may lie anywhere that the editor reaches. */
export function serveFiles(client: BaseLanguageClient): ServedFiles {
  const handedOver = new EventEmitter<readonly string[]>();
  let isAskedFor = false;
  const areNotesWanted = () => isAskedFor || isWorkspaceChecked();
  const watcher = watchFiles(client, areNotesWanted);
  const listening = Disposable.from(
    handedOver,
    watcher,
    client.onRequest('leastwise/config', ({ uri }: { readonly uri: string }) =>
      nearestConfig(Uri.parse(uri, true)),
    ),
    client.onRequest('leastwise/ignore', ({ uri }: { readonly uri: string }) =>
      nearestFile(IGNORE_NAME, Uri.parse(uri, true)),
    ),
    client.onRequest('leastwise/notes', async (token: CancellationToken) => {
      const notes = areNotesWanted() ? await findNotes(token) : [];
      // What is sent from now on arrives behind this answer.
      setTimeout(() => handedOver.fire(notes), 0);
      return notes;
    }),
    client.onRequest('leastwise/read', async ({ uri }: { readonly uri: string }) => {
      const text = await readText(Uri.parse(uri, true));
      return text === null ? null : { text };
    }),
  );
  return {
    handOverAll(token) {
      isAskedFor = true;
      return new Promise(resolve => {
        const ending = Disposable.from(
          handedOver.event(notes => end(notes)),
          token.onCancellationRequested(() => end(null)),
        );
        const end = (notes: readonly string[] | null) => {
          ending.dispose();
          resolve(notes);
        };
        watcher.lookAgain();
      });
    },
    dispose: () => listening.dispose(),
  };
}

/** Whether notes that nobody opened are checked without being asked. */
function isWorkspaceChecked(): boolean {
  return workspace.getConfiguration('leastwise', null).get('workspace.check', true);
}
