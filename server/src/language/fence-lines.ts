import type { Token } from 'mdast-util-from-markdown';
import type { Fence, FenceLine, Span } from './syntax.ts';

/**
 * A fence as remark's tokens show it, in a piece of a note: `fences` are its opening line and its closing line,
 * `values` the lines of its content that are not empty.
 *
 * A blank that is half of a tab (the other half belongs to the list or quote around) has no place of its own in
 * the note, so it is left out of a line's text. A fence that ends with the list or quote around it, not closed, ends
 * with its last line that is not empty: whether remark counts the empty ones depends on what follows.
 */
export function fenceFromTokens(
  piece: string,
  node: Span,
  fences: readonly Token[],
  values: readonly Token[],
  last: boolean,
): Fence {
  const opening = fences[0]!;
  const closing = fences[1];
  const openingLine = piece.slice(opening.start.offset, opening.end.offset);
  const infoStart = opening.start.offset + /^(?:`+|~+)[ \t]*/.exec(openingLine)![0].length;
  const info = piece.slice(infoStart, opening.end.offset).trimEnd();
  const prefix = prefixBeside(piece, node.start);
  const contentEnd = closing?.start.offset ?? node.end;
  const lines = linesBetween(piece, opening.end.offset, contentEnd, closing !== undefined, values, prefix);
  let end = node.end;
  if (closing === undefined && !(last && end === piece.length)) {
    lines.length = lines.findLastIndex(line => line.text !== '') + 1;
    const tail = lines.at(-1);
    end = tail === undefined ? opening.end.offset : tail.start + tail.text.length;
  }
  return {
    span: { start: node.start, end },
    info,
    infoSpan: { start: infoStart, end: infoStart + info.length },
    lines,
    closed: closing !== undefined,
    closingEnd: closing?.end.offset ?? null,
    prefix,
  };
}

/** Where a fence is not closed, the line that the last line break begins is none, as for remark. */
function linesBetween(
  piece: string,
  start: number,
  end: number,
  closed: boolean,
  values: readonly Token[],
  prefix: string,
): FenceLine[] {
  const lines: FenceLine[] = [];
  let next = 0;
  let lineStart = afterLineBreak(piece, start);
  while (start < lineStart && lineStart <= end) {
    const lineEnd = endOfLine(piece, lineStart);
    if (closed && end <= lineEnd) {
      break;
    }
    const value = values[next];
    if (value !== undefined && value.start.offset <= lineEnd) {
      next++;
      const from = value.start.offset;
      const text = piece.slice(from, value.end.offset);
      lines.push({ text, start: from, prefix: text === '' ? prefix : piece.slice(lineStart, from) });
    } else if (closed || lineEnd < end) {
      lines.push({ text: '', start: lineEnd, prefix });
    }
    const following = afterLineBreak(piece, lineEnd);
    if (following === lineEnd) {
      break;
    }
    lineStart = following;
  }
  return lines;
}

/**
 * Finishes a fence at the left margin that is open where the text before `from` ends.
 *
 * The first line that can close it does: at most three spaces, at least as many of the same marks as opened it,
 * nothing after them (CommonMark 0.31, 4.5); without one it ends with the note. `after` is where the note goes on.
 */
export function finishFence(note: string, opening: Fence, from: number): { fence: Fence; after: number } {
  const marks = /^(?:`+|~+)/.exec(note.slice(opening.span.start, opening.infoSpan.start))![0];
  const closingLine = new RegExp(
    `(?:\\r\\n|[\\r\\n]) {0,3}${marks[0]!}{${marks.length},}[ \\t]*(?![^\\r\\n])`,
    'g',
  );
  closingLine.lastIndex = note.startsWith('\r\n', from - 2) ? from - 2 : from - 1;
  const closing = closingLine.exec(note);
  const contentEnd = closing?.index ?? note.length;
  const lines: FenceLine[] = [];
  const openingEnd = endOfLine(note, opening.span.start);
  for (let end = openingEnd; end < contentEnd; ) {
    const start = afterLineBreak(note, end);
    end = endOfLine(note, start);
    if (closing === null && start === note.length) {
      break;
    }
    const textStart = afterIndent(note, start, end, opening.prefix.length);
    lines.push({
      text: note.slice(textStart, end),
      start: textStart,
      prefix: textStart === end ? opening.prefix : note.slice(start, textStart),
    });
  }
  const end = closing === null ? note.length : closing.index + closing[0].length;
  return {
    fence: {
      ...opening,
      span: { start: opening.span.start, end },
      lines,
      closed: closing !== null,
      closingEnd: closing === null ? null : end,
    },
    after: afterLineBreak(note, end),
  };
}

/** Where a line's own text begins: a fence's content loses as much indentation as the fence has. */
function afterIndent(note: string, start: number, end: number, indent: number): number {
  let at = start;
  for (let column = 0; column < indent && at < end; at++) {
    if (note[at] === ' ') {
      column++;
    } else if (note[at] === '\t') {
      column += 4 - (column % 4);
    } else {
      break;
    }
  }
  return at;
}

export function endOfLine(text: string, from: number): number {
  const lineBreak = /[\n\r]/g;
  lineBreak.lastIndex = from;
  return lineBreak.exec(text)?.index ?? text.length;
}

/** Past the line break at `at`; `at` itself where none is. */
export function afterLineBreak(text: string, at: number): number {
  if (text[at] === '\r' && text[at + 1] === '\n') {
    return at + 2;
  }
  return text[at] === '\n' || text[at] === '\r' ? at + 1 : at;
}

/** What the lines below an opening line begin with: what stands before the fence, blanks for the marks of an item. */
export function asPrefix(beforeFence: string): string {
  return beforeFence.replace(/[^ \t>]/g, ' ');
}

/** What the lines below something that begins at `start` begin with. */
export function prefixBeside(piece: string, start: number): string {
  let lineStart = start;
  while (0 < lineStart && piece[lineStart - 1] !== '\n' && piece[lineStart - 1] !== '\r') {
    lineStart--;
  }
  return asPrefix(piece.slice(lineStart, start));
}
