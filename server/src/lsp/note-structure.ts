import type { TextDocument } from 'vscode-languageserver-textdocument';
import { noteReader } from '../language/note-reader.ts';
import type { NoteText } from '../language/note-text.ts';
import type { Fence, NoteStructure } from '../language/syntax.ts';
import { noteOf } from './note-document.ts';
import type { OpenNote } from './open-notes.ts';

/** Where the blocks of an open note stand. After an edit only what it concerns is looked at again. */
export function noteStructure({ document }: Pick<OpenNote, 'document' | 'text'>): NoteStructure {
  return structureOf(document, noteOf(document));
}

/** The same for one of the document's texts. */
export function structureOf(document: TextDocument, note: NoteText): NoteStructure {
  const read = readers.get(document) ?? noteReader();
  readers.set(document, read);
  return read(note);
}

const readers = new WeakMap<TextDocument, ReturnType<typeof noteReader>>();

/** The block in which a place lies, its fences included; null outside of all. */
export function fenceAt({ fences }: NoteStructure, offset: number): Fence | null {
  return fences.find(({ span }) => span.start <= offset && offset <= span.end) ?? null;
}
