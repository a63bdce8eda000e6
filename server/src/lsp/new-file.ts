import type { TextDocumentEdit, WorkspaceEdit } from 'vscode-languageserver';
import type { Server } from './feature.ts';
import type { OpenNote } from './open-notes.ts';

/** An edit of a note that also writes a file beside it, over one of the same name. */
export function withNewFile(
  { documentChanges = [] }: WorkspaceEdit,
  note: string,
  { name, content }: { readonly name: string; readonly content: string },
): WorkspaceEdit {
  const uri = `${note.slice(0, note.lastIndexOf('/') + 1)}${encodeURIComponent(name)}`;
  const start = { line: 0, character: 0 };
  const filled: TextDocumentEdit = {
    textDocument: { uri, version: null },
    edits: [{ range: { start, end: start }, newText: content }],
  };
  return {
    documentChanges: [{ kind: 'create', uri, options: { overwrite: true } }, filled, ...documentChanges],
  };
}

/** The name of a note's file without its ending; null where it has none yet, or the editor makes no files. */
export function noteNameOf(
  { client }: Pick<Server, 'client'>,
  { document }: Pick<OpenNote, 'document'>,
): string | null {
  const edits = client.workspace?.workspaceEdit;
  const canCreate = edits?.documentChanges === true && edits.resourceOperations?.includes('create') === true;
  if (!canCreate || !/^[\w+.-]+:.*\//.test(document.uri) || document.uri.startsWith('untitled:')) return null;
  const name = document.uri.slice(document.uri.lastIndexOf('/') + 1).replace(/[?#].*$/, '');
  return decoded(name).replace(/\.[^.]*$/, '') || null;
}

function decoded(name: string): string {
  try {
    return decodeURIComponent(name);
  } catch {
    return name;
  }
}
