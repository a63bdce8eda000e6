import type { TextDocument } from 'vscode-languageserver-textdocument';
import { examineNote } from '../checks/examine.ts';
import type { CheckedNote } from '../checks/finding.ts';
import type { NoteCheck } from '../checks/note-check.ts';
import { type NoteSession, noteSession } from '../checks/note-session.ts';
import type { Settings } from '../checks/settings.ts';

/** A note that stands open in an editor, and what a check makes of its present text. */
export interface OpenNote {
  readonly document: TextDocument;
  readonly text: string;
  readonly settings: Settings;
  /** Another one for every text, and for all settings, that is looked at: what was told of a note holds as long as this does. */
  readonly serial: number;
  /** The note taken apart; null where nothing of it concerns us. */
  readonly note: NoteCheck | null;
  readonly checked: CheckedNote;
}

/**
 * Looks at open notes: at each text only once, only when somebody asks, and of a text that was typed at only at what
 * has changed.
 *
 * What was found lives as long as the document: nothing is left of a note that was closed.
 */
export function openNotes(): (document: TextDocument, settings: Settings) => OpenNote {
  const known = new WeakMap<TextDocument, { readonly note: OpenNote; readonly session: NoteSession }>();
  let serial = 0;
  return (document, settings) => {
    const last = known.get(document);
    const before = last?.note.settings === settings ? last : undefined;
    if (before !== undefined && before.note.text === document.getText()) return before.note;
    serial += 1;
    const session = before?.session ?? noteSession(settings);
    const note = openNote(document, settings, serial, session);
    known.set(document, { note, session });
    return note;
  };
}

function openNote(
  document: TextDocument,
  settings: Settings,
  serial: number,
  session: NoteSession,
): OpenNote {
  const text = document.getText();
  let note: NoteCheck | null | undefined;
  let checked: CheckedNote | undefined;
  return {
    document,
    text,
    settings,
    serial,
    get note() {
      if (note === undefined) note = examineNote(text, settings);
      return note;
    },
    get checked() {
      checked ??= session.check(text);
      return checked;
    },
  };
}
