import type { NoteCheck } from '../checks/note-check.ts';
import { afterLineBreak, endOfLine } from '../language/fence-lines.ts';
import { lineBreakOf } from '../language/line-edits.ts';
import type { Edit } from '../language/problem.ts';
import type { Fence } from '../language/syntax.ts';

/** Puts lines below a block, in the list or the quote that it stands in; a fence that nothing closes is closed first. */
export function belowBlock(note: NoteCheck, block: number, lines: readonly string[]): Edit {
  const { fence } = note.measurements[block]!;
  const lineBreak = lineBreakOf(note.text, fence);
  const at = fence.closingEnd ?? endOfContent(note.text, fence);
  const below = [
    ...(fence.closed ? [] : [`${fence.prefix}${fenceMarks(note.text, fence)}`]),
    fence.prefix.trimEnd(),
    ...prefixed(lines, fence.prefix),
    ...(isBlankBelow(note.text, at) ? [] : [fence.prefix.trimEnd()]),
  ];
  return { span: { start: at, end: at }, newText: below.map(line => `${lineBreak}${line}`).join('') };
}

/** What a comment calls its block: the name and a blank; of two blocks with one name the first has it. */
export function calledInComment(note: NoteCheck, block: number): string {
  const { name } = note.measurements[block]!;
  return name !== null && note.facts.indexOf(name) === block ? `${name} ` : '';
}

/** Lines in the list or the quote that the block stands in; of an empty one no blanks are left behind. */
export function prefixed(lines: readonly string[], prefix: string): readonly string[] {
  return lines.map(line => (line === '' ? prefix.trimEnd() : `${prefix}${line}`));
}

/** Where the last line that is not blank ends, in a fence that nothing closes. */
function endOfContent(text: string, fence: Fence): number {
  const last = fence.lines.findLast(line => line.text.trim() !== '');
  return last === undefined ? endOfLine(text, fence.infoSpan.end) : last.start + last.text.length;
}

function fenceMarks(text: string, fence: Fence): string {
  return text.slice(fence.span.start, fence.infoSpan.start).trimEnd();
}

/** Whether the line below the one that ends at `at` is blank, or there is none. */
export function isBlankBelow(text: string, at: number): boolean {
  const start = afterLineBreak(text, at);
  return /^[ \t>]*$/.test(text.slice(start, endOfLine(text, start)));
}
