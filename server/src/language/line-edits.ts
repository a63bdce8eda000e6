import { tokenize } from './lexer.ts';
import type { Edit } from './problem.ts';
import type { Fence, FenceLine, Span } from './syntax.ts';

/** The line break that a block's lines end with; a note without any gets the plain one. */
export function lineBreakOf(text: string, fence: Fence): string {
  return lineBreakFrom(text, fence.span.start) ?? lineBreakFrom(text, 0) ?? '\n';
}

function lineBreakFrom(text: string, from: number): string | null {
  const lineBreak = /\r\n|[\r\n]/g;
  lineBreak.lastIndex = from;
  return lineBreak.exec(text)?.[0] ?? null;
}

/**
 * Puts new lines below a line of a block, or as its first ones where `line` is null.
 *
 * They begin as the block's lines do, with the list's indentation and the quote's marks. It also works in a fence that
 * nothing closes, and in one that holds no line yet.
 */
export function linesBelow(
  text: string,
  fence: Fence,
  line: FenceLine | null,
  lines: readonly string[],
): Edit {
  const at = line === null ? endOfOpening(text, fence) : line.start + line.text.length;
  const prefix = line?.prefix ?? fence.lines[0]?.prefix ?? fence.prefix;
  const lineBreak = lineBreakOf(text, fence);
  return {
    span: { start: at, end: at },
    newText: lines.map(each => `${lineBreak}${prefix}${each}`).join(''),
  };
}

/** Puts new lines above a line of a block. */
export function linesAbove(text: string, fence: Fence, line: FenceLine, lines: readonly string[]): Edit {
  const above = fence.lines[fence.lines.indexOf(line) - 1] ?? null;
  return linesBelow(text, fence, above, lines);
}

function endOfOpening(text: string, fence: Fence): number {
  const end = text.slice(fence.infoSpan.end).search(/[\r\n]/);
  return end === -1 ? text.length : fence.infoSpan.end + end;
}

/**
 * Takes a statement out together with its lines; null where another statement shares them.
 *
 * A comment behind it goes with it, since it spoke of it.
 */
export function withoutLines(fence: Fence, span: Span): Edit | null {
  const first = lineOf(fence, span.start);
  const last = lineOf(fence, span.end);
  if (first === null || last === null) return null;
  const before = tokenize(first.text.slice(0, span.start - first.start), first.start).tokens;
  const after = tokenize(last.text.slice(span.end - last.start), span.end).tokens;
  const isDress = (text: string): boolean => /^[-+×•·∴⇒→>=.;,]$/u.test(text);
  if (![...before, ...after].every(token => token.kind === 'operator' && isDress(token.text))) return null;
  const above = fence.lines[fence.lines.indexOf(first) - 1];
  const start = above === undefined ? fence.infoSpan.end : above.start + above.text.length;
  return { span: { start, end: last.start + last.text.length }, newText: '' };
}

/** The line of a block that a place stands on; null for a place outside of its lines. */
export function lineOf(fence: Fence, at: number): FenceLine | null {
  let low = 0;
  let high = fence.lines.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    const line = fence.lines[middle]!;
    if (line.start + line.text.length < at) low = middle + 1;
    else high = middle;
  }
  const line = fence.lines[low];
  return line === undefined || at < line.start - line.prefix.length ? null : line;
}
