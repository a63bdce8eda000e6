import { Uri, workspace } from 'vscode';
import { readText } from './read-text.ts';

export const CONFIG_NAME = 'leastwise.config.json';

/** A configuration file as it is saved. */
export interface ConfigFile {
  readonly uri: string;
  readonly text: string;
}

/**
 * The configuration file that holds for a note: the nearest one from its folder upward, on a disk also above what
 * is opened. A note that was never saved is taken as one of the first folder. Null where there is none.
 */
export async function nearestConfig(note: Uri): Promise<ConfigFile | null> {
  const isUnsaved = note.scheme === 'untitled';
  const own = workspace.getWorkspaceFolder(note)?.uri;
  const root = own ?? (isUnsaved ? workspace.workspaceFolders?.[0]?.uri : undefined);
  if (root === undefined && note.scheme !== 'file') return null;
  let folder = isUnsaved ? root : Uri.joinPath(note, '..');
  while (folder !== undefined) {
    const uri = Uri.joinPath(folder, CONFIG_NAME);
    const text = await readText(uri);
    if (text !== null) return { uri: uri.toString(), text };
    folder = above(folder, root);
  }
  return null;
}

/** The next folder to look in; elsewhere than on a disk nothing but what is opened is anybody's to read. */
function above(folder: Uri, root: Uri | undefined): Uri | undefined {
  const isAtRoot = root !== undefined && folder.path.replace(/\/$/, '') === root.path.replace(/\/$/, '');
  if (isAtRoot && folder.scheme !== 'file') return undefined;
  const next = Uri.joinPath(folder, '..');
  return next.path === folder.path ? undefined : next;
}
