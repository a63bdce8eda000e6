import type { TextDocument } from 'vscode-languageserver-textdocument';
import { noteReader } from '../language/note-reader.ts';
import type { Fence, NoteStructure } from '../language/syntax.ts';
import type { OpenNote } from './open-notes.ts';

/** Where the blocks of an open note stand. After an edit only what it concerns is looked at again. */
export function noteStructure({ document, text }: Pick<OpenNote, 'document' | 'text'>): NoteStructure {
  const before = known.get(document);
  if (before !== undefined && before.text === text) return before.structure;
  const read = before?.read ?? noteReader();
  const structure = read(text);
  known.set(document, { text, read, structure });
  return structure;
}

const known = new WeakMap<
  TextDocument,
  { readonly text: string; readonly read: ReturnType<typeof noteReader>; readonly structure: NoteStructure }
>();

/** The block in which a place lies, its fences included; null outside of all. */
export function fenceAt({ fences }: NoteStructure, offset: number): Fence | null {
  return fences.find(({ span }) => span.start <= offset && offset <= span.end) ?? null;
}
