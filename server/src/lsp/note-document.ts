import type {
  Position,
  Range,
  TextDocument,
  TextDocumentContentChangeEvent,
} from 'vscode-languageserver-textdocument';
import { asNoteText, type NoteText, type WrittenText, writtenText } from '../language/note-text.ts';

/** A document whose text need not be put together for every letter that is typed into it. */
export interface NoteDocument extends TextDocument {
  readonly note: NoteText;
  /** Takes changes over, one after the other. */
  change(changes: readonly TextDocumentContentChangeEvent[], version: number): void;
}

/** How documents are made and changed that an editor keeps open. */
export const noteDocuments = {
  create: noteDocument,
  update(document: NoteDocument, changes: readonly TextDocumentContentChangeEvent[], version: number) {
    document.change(changes, version);
    return document;
  },
};

/** The text of any document; the same object as long as it is the same text. */
export function noteOf(document: TextDocument): NoteText {
  if ('note' in document) return (document as NoteDocument).note;
  const before = texts.get(document);
  if (before !== undefined && before.whole() === document.getText()) return before;
  const now = asNoteText(document.getText());
  texts.set(document, now);
  return now;
}

const texts = new WeakMap<TextDocument, NoteText>();

/** Begins a document; lines and characters count as the protocol has them, in UTF-16 units. */
export function noteDocument(
  uri: string,
  languageId: string,
  firstVersion: number,
  content: string,
): NoteDocument {
  let version = firstVersion;
  let note: WrittenText = writtenText(content);
  /** Where each line begins. */
  let lines = [0, ...lineStartsIn(content, 0)];

  const offsetAt = ({ line, character }: Position): number => {
    const start = lines[line];
    if (start === undefined) return line < 0 ? 0 : note.length;
    if (character <= 0) return start;
    return beforeLineBreak(note, start, Math.min(start + character, lines[line + 1] ?? note.length));
  };

  const endOfLine = (line: number): number =>
    beforeLineBreak(note, lines[line]!, lines[line + 1] ?? note.length);

  const replace = (from: number, to: number, by: string): void => {
    const [start, end] = [Math.min(from, to), Math.max(from, to)];
    // A line break of two characters may come together, or apart, at either end.
    const first = lineOf(lines, Math.max(0, start - 1));
    const behind = lineOf(lines, end) + 1;
    const moved = by.length - (end - start);
    note = note.replaced(start, end, by);
    const next = lines[behind];
    const begun = lines[first]!;
    const fresh = lineStartsIn(note.slice(begun, next === undefined ? note.length : next + moved), begun);
    for (let line = behind; line < lines.length; line++) lines[line]! += moved;
    if (next !== undefined) fresh.pop();
    if (fresh.length < 1000) lines.splice(first + 1, behind - first - 1, ...fresh);
    else lines = lines.slice(0, first + 1).concat(fresh, lines.slice(behind));
  };

  return {
    uri,
    languageId,
    get version() {
      return version;
    },
    get lineCount() {
      return lines.length;
    },
    get note() {
      return note;
    },
    getText: range =>
      range === undefined ? note.whole() : note.slice(offsetAt(range.start), offsetAt(range.end)),
    positionAt(offset) {
      const at = Math.max(0, Math.min(offset, note.length));
      const line = lineOf(lines, at);
      return { line, character: beforeLineBreak(note, lines[line]!, at) - lines[line]! };
    },
    offsetAt,
    getLineRange(typed) {
      const line = Math.max(0, Math.min(typed, lines.length - 1));
      const length = typed < 0 ? 0 : endOfLine(line) - lines[line]!;
      return { start: { line, character: 0 }, end: { line, character: length } };
    },
    getEOLCharacters: line =>
      lines[line] === undefined ? '' : note.slice(endOfLine(line), lines[line + 1] ?? note.length),
    change(changes, now) {
      for (const change of changes) {
        const range = rangeOf(change);
        if (range === null) replace(0, note.length, change.text);
        else replace(offsetAt(range.start), offsetAt(range.end), change.text);
      }
      version = now;
    },
  };
}

function rangeOf(change: TextDocumentContentChangeEvent): Range | null {
  return 'range' in change ? change.range : null;
}

/** The line that an offset lies in. */
function lineOf(lines: readonly number[], offset: number): number {
  let [low, high] = [0, lines.length];
  while (low + 1 < high) {
    const middle = (low + high) >> 1;
    if (lines[middle]! <= offset) low = middle;
    else high = middle;
  }
  return low;
}

/** A place behind a line break, or within one, counts as the one before it. */
function beforeLineBreak(note: NoteText, lineStart: number, offset: number): number {
  return lineStart + note.slice(lineStart, offset).replace(/[\r\n]+$/, '').length;
}

/** Where lines begin behind the line breaks of a piece of text that stands at `from`. */
function lineStartsIn(text: string, from: number): number[] {
  const starts: number[] = [];
  for (const { index, 0: lineBreak } of text.matchAll(/\r\n|[\r\n]/g))
    starts.push(from + index + lineBreak.length);
  return starts;
}
