import type { Position, Range } from 'vscode-languageserver';

interface TextEdit {
  readonly range: Range;
  readonly newText: string;
}

/** A text with an editor's edits made, by the words of the protocol: all at once, none of them over another. */
export function editedText(text: string, edits: readonly TextEdit[]): string {
  const places = edits
    .map(({ range, newText }, order) => ({
      start: offsetOf(text, range.start),
      end: offsetOf(text, range.end),
      newText,
      order,
    }))
    .sort((a, b) => a.start - b.start || a.order - b.order);
  let result = '';
  let at = 0;
  for (const { start, end, newText } of places) {
    if (start < at) throw new Error('edits lie over one another');
    result += text.slice(at, start) + newText;
    at = end;
  }
  return result + text.slice(at);
}

/** Lines end with CR LF, LF or CR; a character behind a line's end means the end. */
export function offsetOf(text: string, { line, character }: Position): number {
  const parts = text.split(/(\r\n|\r|\n)/);
  if (line * 2 >= parts.length) return text.length;
  const before = parts.slice(0, line * 2).join('').length;
  return before + Math.min(character, parts[line * 2]!.length);
}

/** The place of a piece of text that stands in a note once. */
export function placeOf(text: string, piece: string): Range {
  const start = text.indexOf(piece);
  if (start === -1 || text.indexOf(piece, start + 1) !== -1)
    throw new Error(`not once in the note: ${piece}`);
  return { start: positionOf(text, start), end: positionOf(text, start + piece.length) };
}

export function positionOf(text: string, offset: number): Position {
  const lines = text.slice(0, offset).split(/\r\n|\r|\n/);
  return { line: lines.length - 1, character: lines.at(-1)!.length };
}
