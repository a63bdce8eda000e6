import { Disposable, type Uri, workspace } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { isNoteName } from './find-notes.ts';
import { LEAVING_OUT } from './left-out.ts';
import { CONFIG_NAME, IGNORE_NAME } from './nearest-config.ts';

/** Changes this close together, in milliseconds, are told at once. */
const TOGETHER = 150;

/** Above this many changed notes (another branch, say) it is quicker to look for all notes anew. */
const MANY = 200;

/** Whoever watches, and can be told that anything may have changed. */
export interface Watcher extends Disposable {
  lookAgain(): void;
}

/**
 * Tells the server which notes and configuration files were created, changed and deleted, by whomever; of single notes
 * only as long as closed notes are wanted.
 */
export function watchFiles(client: BaseLanguageClient, areNotesWanted: () => boolean): Watcher {
  const changed = new Set<string>();
  let isAnythingPossible = false;
  let waiting: ReturnType<typeof setTimeout> | undefined;
  const tellSoon = () => {
    clearTimeout(waiting);
    waiting = setTimeout(tell, TOGETHER);
  };
  const tell = () => {
    const uris = isAnythingPossible || changed.size > MANY ? null : [...changed];
    changed.clear();
    isAnythingPossible = false;
    notify(client, 'leastwise/notesChanged', { uris });
  };
  const noteChanged = (uri: Uri) => {
    if (isHidden(uri) || !areNotesWanted()) return;
    changed.add(uri.toString());
    tellSoon();
  };
  const anythingChanged = () => {
    isAnythingPossible = true;
    tellSoon();
  };
  /** A folder comes and goes without a word about what is in it; its name has no ending, as a rule. */
  const folderChanged = (uri: Uri) => {
    if (!isHidden(uri) && !/\.[^/]+$/.test(uri.path)) anythingChanged();
  };
  const configChanged = () => notify(client, 'leastwise/configChanged', {});

  const notes = workspace.createFileSystemWatcher('**/*.{md,markdown}');
  const configs = workspace.createFileSystemWatcher(`**/{${CONFIG_NAME},${IGNORE_NAME}}`);
  const all = workspace.createFileSystemWatcher('**/*', false, true, false);
  const listening = Disposable.from(
    notes,
    configs,
    all,
    ...[notes.onDidCreate, notes.onDidChange, notes.onDidDelete].map(event => event(noteChanged)),
    ...[configs.onDidCreate, configs.onDidChange, configs.onDidDelete].map(event => event(configChanged)),
    ...[all.onDidCreate, all.onDidDelete].map(event => event(folderChanged)),
    // Above the folders that are open nobody watches, but what is opened or saved here is known all the same.
    ...[workspace.onDidOpenTextDocument, workspace.onDidSaveTextDocument].map(event =>
      event(({ uri }) => {
        if ([CONFIG_NAME, IGNORE_NAME].some(name => uri.path.endsWith(`/${name}`))) configChanged();
      }),
    ),
    workspace.onDidRenameFiles(({ files }) => {
      for (const { oldUri, newUri } of files)
        for (const uri of [oldUri, newUri]) isNoteName(uri.path) ? noteChanged(uri) : folderChanged(uri);
    }),
    workspace.onDidDeleteFiles(({ files }) => {
      for (const uri of files) isNoteName(uri.path) ? noteChanged(uri) : folderChanged(uri);
    }),
    workspace.onDidChangeWorkspaceFolders(() => {
      configChanged();
      anythingChanged();
    }),
    workspace.onDidChangeConfiguration(change => {
      if (['leastwise.workspace', ...LEAVING_OUT].some(setting => change.affectsConfiguration(setting)))
        anythingChanged();
    }),
    new Disposable(() => clearTimeout(waiting)),
  );
  return { lookAgain: anythingChanged, dispose: () => listening.dispose() };
}

/** Whether it lies in a folder that is never looked into: that of the version control, say, which never rests. */
function isHidden(uri: Uri): boolean {
  return /\/(?:\.[^/]+|node_modules)\//.test(uri.path);
}

/** A server that is just going down needs to know no more. */
function notify(client: BaseLanguageClient, method: string, params: object): void {
  if (client.isRunning()) client.sendNotification(method, params).catch(() => {});
}
