import { skipMarks } from './stretches.ts';

/** What it costs remark to read a part of a note, and how many lists and quotes begin on one of its lines at most. */
export interface ReadingEffort {
  /** In characters of ordinary text. */
  readonly effort: number;
  readonly nesting: number;
}

/**
 * Tells what a part of a note costs remark-parse before it is read.
 *
 * Ordinary text costs 1 a character, 40 a line and 300 for the call. The rest stands for what makes remark slow,
 * as measured on text made to be slow: in a list or quote each line may make it go over all that it has read,
 * each mark and each level of indentation over all the others; a bracket or a tag may make it look for its
 * end through the rest of the text, where code spans are wanted. `plain` has no line breaks but `\n`.
 */
export function readingEffort(plain: string, start: number, end: number, withSpans: boolean): ReadingEffort {
  let lines = 0;
  let marks = 0;
  let depth = 0;
  let nesting = 0;
  for (let at = start; at < end; lines++) {
    const newline = plain.indexOf('\n', at);
    const lineEnd = newline < 0 || end < newline ? end : newline;
    const line = skipMarks(plain, at, lineEnd);
    marks += line.marks;
    depth += line.marks ** 3 / 12 + (line.indented - at) ** 2 / 20;
    nesting = Math.max(nesting, line.marks);
    at = lineEnd + 1;
  }
  const length = end - start;
  const nested = marks === 0 ? 0 : (lines + marks) ** 2 / 8 + depth;
  const spans = withSpans ? length ** 2 / 100 : 0;
  return { effort: 300 + length + 40 * lines + lines ** 2 / 400 + nested + spans, nesting };
}
