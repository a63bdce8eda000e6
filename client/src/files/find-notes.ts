import { type CancellationToken, FileType, Uri, workspace } from 'vscode';
import { leftOut } from './left-out.ts';

const NOTE_NAME = /\.(?:md|markdown)$/i;

/** How many folders are read at once. */
const AT_ONCE = 8;

/** Bounds for a folder that somebody opened by mistake: the whole disk, say. */
const MOST_NOTES = 100_000;
const MOST_FOLDERS = 200_000;

/** The addresses of all notes of the workspace, whatever it lies on, as the editor spells those of its documents. */
export async function findNotes(token?: CancellationToken): Promise<string[]> {
  const found = new Set<string>();
  for (const { uri } of workspace.workspaceFolders ?? []) await addNotesBelow(uri, found, token);
  return [...found].sort();
}

export function isNoteName(path: string): boolean {
  return NOTE_NAME.test(path);
}

/** Walks a folder down; links to notes are followed, links to folders are not, for they may lead in a circle. */
async function addNotesBelow(
  root: Uri,
  found: Set<string>,
  token: CancellationToken | undefined,
): Promise<void> {
  const isLeftOut = leftOut(root);
  const folders = [''];
  let read = 0;
  while (folders.length > 0 && read < MOST_FOLDERS) {
    const next = folders.splice(-AT_ONCE);
    read += next.length;
    const contents = await Promise.all(
      next.map(async path => ({ path, entries: await entriesOf(root, path) })),
    );
    for (const { path, entries } of contents)
      for (const [name, type] of entries) {
        if (token?.isCancellationRequested === true || found.size >= MOST_NOTES) return;
        const inside = path === '' ? name : `${path}/${name}`;
        if (isLeftOut(inside)) continue;
        if (type === FileType.Directory) folders.push(inside);
        else if ((type & FileType.Directory) === 0 && isNoteName(name))
          found.add(Uri.joinPath(root, inside).toString());
      }
  }
}

/** Nothing for a folder that cannot be read. */
async function entriesOf(root: Uri, path: string): Promise<[string, FileType][]> {
  try {
    return await workspace.fs.readDirectory(path === '' ? root : Uri.joinPath(root, path));
  } catch {
    return [];
  }
}
