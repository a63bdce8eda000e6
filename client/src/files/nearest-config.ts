import { Uri, workspace } from 'vscode';
import { readText } from './read-text.ts';

export const CONFIG_NAME = 'leastwise.config.json';
/** A file that says which notes are left out. */
export const IGNORE_NAME = '.leastwiseignore';

/** A file as it is saved. */
export interface NearestFile {
  readonly uri: string;
  readonly text: string;
}

/** The configuration file that holds for a note; null where there is none. */
export function nearestConfig(note: Uri): Promise<NearestFile | null> {
  return nearestFile(CONFIG_NAME, note);
}

/**
 * The file of some name that holds for a note: the nearest one from its folder upward, on a disk also above what is
 * opened. A note that was never saved is taken as one of the first folder. Null where there is none.
 */
export async function nearestFile(name: string, note: Uri): Promise<NearestFile | null> {
  const isUnsaved = note.scheme === 'untitled';
  const own = workspace.getWorkspaceFolder(note)?.uri;
  const root = own ?? (isUnsaved ? workspace.workspaceFolders?.[0]?.uri : undefined);
  if (root === undefined && note.scheme !== 'file') return null;
  const places: Uri[] = [];
  for (let at = isUnsaved ? root : Uri.joinPath(note, '..'); at !== undefined; at = above(at, root))
    places.push(Uri.joinPath(at, name));
  // All at once, for a preview waits for it.
  const texts = await Promise.all(places.map(readText));
  const found = texts.findIndex(text => text !== null);
  const [place, text] = [places[found], texts[found]];
  return place === undefined || text == null ? null : { uri: place.toString(), text };
}

/** The next folder to look in; elsewhere than on a disk nothing but what is opened is anybody's to read. */
function above(folder: Uri, root: Uri | undefined): Uri | undefined {
  const isAtRoot = root !== undefined && folder.path.replace(/\/$/, '') === root.path.replace(/\/$/, '');
  if (isAtRoot && folder.scheme !== 'file') return undefined;
  const next = Uri.joinPath(folder, '..');
  return next.path === folder.path ? undefined : next;
}
