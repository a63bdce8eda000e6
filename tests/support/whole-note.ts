import { DEFAULT_SETTINGS } from '../../server/src/checks/settings.ts';
import { readNote } from '../../server/src/language/fences.ts';
import { workingComments } from '../../server/src/language/working-comments.ts';
import { type NotePart, notePart } from '../../server/src/lsp/note-part.ts';

/** A note as one part: every block of it, whether they have to do with each other or not. */
export function wholeNote(text: string): NotePart {
  const structure = readNote(text);
  return notePart(text, structure, structure, DEFAULT_SETTINGS, workingComments(text, structure));
}
