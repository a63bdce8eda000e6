import type { CodeSpan, CommentLine, Fence, Span } from './syntax.ts';

/**
 * A fence with places that count from `start`, and with texts of its own: one that is cut out of a note keeps all of the
 * note in memory, in every version that it had.
 */
export function ownFence(fence: Fence, start: number, note: string): Fence {
  const { span } = fence;
  const text = copyOf(note.slice(span.start, span.end));
  const cut = (from: number, length: number): string =>
    span.start <= from && from + length <= span.end
      ? text.slice(from - span.start, from - span.start + length)
      : copyOf(note.slice(from, from + length));
  return {
    ...movedFence(fence, -start),
    info: cut(fence.infoSpan.start, fence.info.length),
    prefix: copyOf(fence.prefix),
    lines: fence.lines.map(line => ({
      text: cut(line.start, line.text.length),
      start: line.start - start,
      prefix: copyOf(line.prefix),
    })),
  };
}

/** The same fence at another place. Its lines are only moved when somebody looks at them. */
export function movedFence(fence: Fence, by: number): Fence {
  return new MovedFence(fence, by);
}

/** A class, for V8 keeps all that the getter of a single object refers to until it collects everything. */
class MovedFence implements Fence {
  readonly span: Span;
  readonly info: string;
  readonly infoSpan: Span;
  readonly closed: boolean;
  readonly closingEnd: number | null;
  readonly prefix: string;
  readonly #fence: Fence;
  readonly #by: number;
  #lines: Fence['lines'] | null = null;

  constructor(fence: Fence, by: number) {
    this.span = movedSpan(fence.span, by);
    this.info = fence.info;
    this.infoSpan = movedSpan(fence.infoSpan, by);
    this.closed = fence.closed;
    this.closingEnd = fence.closingEnd === null ? null : fence.closingEnd + by;
    this.prefix = fence.prefix;
    this.#fence = fence;
    this.#by = by;
  }

  get lines(): Fence['lines'] {
    this.#lines ??= this.#fence.lines.map(({ text, start, prefix }) => ({
      text,
      start: start + this.#by,
      prefix,
    }));
    return this.#lines;
  }
}

export function ownCodeSpan({ text, start }: CodeSpan, from: number): CodeSpan {
  return { text: copyOf(text), start: start - from };
}

export function movedCodeSpan({ text, start }: CodeSpan, by: number): CodeSpan {
  return { text, start: start + by };
}

export function ownComment({ span, depth, prefix }: CommentLine, from: number): CommentLine {
  return { span: movedSpan(span, -from), depth, prefix: copyOf(prefix) };
}

export function movedComment(comment: CommentLine, by: number): CommentLine {
  return { ...comment, span: movedSpan(comment.span, by) };
}

function movedSpan({ start, end }: Span, by: number): Span {
  return { start: start + by, end: end + by };
}

/** What is written out and read again is sure to be a text of its own; a word is always cut out as one. */
function copyOf(text: string): string {
  return text.length < 13 ? text : (JSON.parse(JSON.stringify(text)) as string);
}
