import { TextDocument } from 'vscode-languageserver-textdocument';
import { DEFAULT_SETTINGS, type Settings } from '../../server/src/checks/settings.ts';
import { type OpenNote, openNotes } from '../../server/src/lsp/open-notes.ts';

/** A note as it stands open in an editor. */
export function openNote(text: string, settings: Settings = DEFAULT_SETTINGS): OpenNote {
  return openNotes()(TextDocument.create('untitled:note', 'markdown', 1, text), settings);
}

/** The same with a cursor, `‸`, which is no part of the note. */
export function openNoteAt(marked: string): { readonly open: OpenNote; readonly offset: number } {
  const offset = marked.indexOf('‸');
  if (offset === -1) throw new Error('no cursor in the note');
  return { open: openNote(marked.replace('‸', '')), offset };
}
