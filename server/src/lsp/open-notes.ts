import type { TextDocument } from 'vscode-languageserver-textdocument';
import { examineNote } from '../checks/examine.ts';
import type { CheckedNote } from '../checks/finding.ts';
import type { NoteCheck } from '../checks/note-check.ts';
import { type NoteSession, noteSession } from '../checks/note-session.ts';
import type { Settings } from '../checks/settings.ts';
import type { NoteText } from '../language/note-text.ts';
import type { Span } from '../language/syntax.ts';
import { noteOf } from './note-document.ts';
import { structureOf } from './note-structure.ts';

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
  const known = new WeakMap<
    TextDocument,
    { readonly open: OpenNote; readonly note: NoteText; readonly session: NoteSession }
  >();
  let serial = 0;
  return (document, settings) => {
    const note = noteOf(document);
    const last = known.get(document);
    const before = last?.open.settings === settings ? last : undefined;
    if (before?.note === note) return before.open;
    serial += 1;
    const session = before?.session ?? noteSession(settings, text => structureOf(document, text));
    const typedLine = before === undefined ? null : lineOfTyping(document, before.note, note);
    const open = new NoteInEditor({ document, settings, serial, typedLine }, note, session);
    known.set(document, { open, note, session });
    return open;
  };
}

/**
 * Looks at nothing until somebody asks.
 *
 * A class, for V8 keeps all that the getter of a single object refers to until it collects everything.
 */
class NoteInEditor implements OpenNote {
  readonly document: TextDocument;
  readonly settings: Settings;
  readonly serial: number;
  readonly typedLine: Span | null;
  readonly #text: NoteText;
  readonly #session: NoteSession;
  #note: NoteCheck | null | undefined;
  #checked: CheckedNote | undefined;

  constructor(
    {
      document,
      settings,
      serial,
      typedLine,
    }: Pick<OpenNote, 'document' | 'settings' | 'serial' | 'typedLine'>,
    text: NoteText,
    session: NoteSession,
  ) {
    this.document = document;
    this.settings = settings;
    this.serial = serial;
    this.typedLine = typedLine;
    this.#text = text;
    this.#session = session;
  }

  get text(): string {
    return this.#text.whole();
  }

  get note(): NoteCheck | null {
    if (this.#note === undefined) this.#note = examineNote(this.text, this.settings);
    return this.#note;
  }

  get checked(): CheckedNote {
    this.#checked ??= this.#session.check(this.#text);
    return this.#checked;
  }
}

/** The line that a change within one line was made in; null for a change of several lines. */
function lineOfTyping(document: TextDocument, before: NoteText, now: NoteText): Span | null {
  const change = now.changeSince(before);
  if (change === null) return null;
  const { start, end, by } = change;
  if (/[\r\n]/.test(now.slice(start, end)) || /[\r\n]/.test(before.slice(start, end - by))) return null;
  const { line } = document.positionAt(start);
  return {
    start: document.offsetAt({ line, character: 0 }),
    end: document.offsetAt({ line, character: Number.MAX_SAFE_INTEGER }),
  };
}
