import type { Settings } from '../../checks/settings.ts';
import type { NoteSettings } from '../note-settings.ts';
import { readNote } from '../read.ts';
import type { NoteShare, NoteTask } from './note-work.ts';

/** A note's text with the settings that hold for it, or what is to be told of a note that is not looked at. */
export type OpenedNote =
  | { readonly ok: true; readonly text: string; readonly settings: Settings }
  | {
      readonly ok: false;
      readonly told: Partial<Pick<NoteShare, 'troubles' | 'configTroubles' | 'notices'>>;
    };

/** Finds the settings of a note and reads it, unless it is left out. */
export async function openedNote(
  { path, isMeant, given }: Pick<NoteTask, 'path' | 'isMeant' | 'given'>,
  settingsOf: (path: string) => Promise<NoteSettings>,
): Promise<OpenedNote> {
  const how = await settingsOf(path);
  if (!how.ok) return { ok: false, told: { configTroubles: how.troubles } };
  if (how.isIgnored) {
    // Whoever names a note must not take it for a right one.
    const notices = isMeant ? [`${path} is left out: ${how.ignoredBy} says so`] : [];
    return { ok: false, told: { notices } };
  }
  const note = given ?? readNote(path);
  return note.ok
    ? { ok: true, text: note.text, settings: how.settings }
    : { ok: false, told: { troubles: [note.trouble] } };
}

/** What is said where leastwise fails in a note: it must not cost the others their check, nor pass for a right note. */
export function ownFault(path: string, error: unknown): string {
  return `${path} could not be checked, which is a fault of leastwise and not of the note (${String(error)})`;
}
