import { workspace } from 'vscode';

/** Documents of one language that lie somewhere. */
export interface NoteFilter {
  readonly language: string;
  readonly scheme: string;
}

/** On disk, not saved yet, and of folders that are looked at without a copy on disk. */
const PLACES = ['file', 'untitled', 'vscode-vfs'];

/**
 * The documents that are checked: Markdown, wherever the folders of the workspace lie. Not the old side of a
 * comparison and not the cells of a notebook, which are Markdown too.
 */
export function markdownNotes(): NoteFilter[] {
  const folders = (workspace.workspaceFolders ?? []).map(({ uri }) => uri.scheme);
  return [...new Set([...PLACES, ...folders])].map(scheme => ({ language: 'markdown', scheme }));
}
