import type { TextDocument } from 'vscode-languageserver-textdocument';
import { examineNote } from '../checks/examine.ts';
import type { CheckedNote } from '../checks/finding.ts';
import type { NoteCheck } from '../checks/note-check.ts';
import { type NoteSession, noteSession } from '../checks/note-session.ts';
import type { Settings } from '../checks/settings.ts';
import { changeBetween } from '../language/change-between.ts';
import type { Span } from '../language/syntax.ts';
import { noteStructure } from './note-structure.ts';

/** A note that stands open in an editor, and what a check makes of its present text. */
export interface OpenNote {
  readonly document: TextDocument;
  readonly text: string;
  readonly settings: Settings;
  /** Another one for every text, and for all settings, that is looked at: what was told of a note holds as long as this does. */
  readonly serial: number;
  /** The line that was typed at last; null for a note that is seen for the first time, or was changed in another way. */
  readonly typedLine: Span | null;
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
    const session = before?.session ?? noteSession(settings, text => noteStructure({ document, text }));
    const typedLine = before === undefined ? null : lineOfTyping(before.note.text, document.getText());
    const note = openNote(document, settings, serial, typedLine, session);
    known.set(document, { note, session });
    return note;
  };
}

function openNote(
  document: TextDocument,
  settings: Settings,
  serial: number,
  typedLine: Span | null,
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
    typedLine,
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

/** The line that a change within one line was made in; null for a change of several lines. */
function lineOfTyping(before: string, now: string): Span | null {
  const { start, end, by } = changeBetween(before, now);
  if (/[\r\n]/.test(now.slice(start, end)) || /[\r\n]/.test(before.slice(start, end - by))) return null;
  const behind = /[\r\n]|$/g;
  behind.lastIndex = end;
  return {
    start: Math.max(now.lastIndexOf('\n', start - 1), now.lastIndexOf('\r', start - 1)) + 1,
    end: behind.exec(now)?.index ?? now.length,
  };
}
