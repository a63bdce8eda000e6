import { lineOf } from '../language/line-edits.ts';
import type { Fence, FenceLine } from '../language/syntax.ts';
import { isTableLine } from '../language/table-line.ts';

/** The first line of the statement that a place belongs to: a table's head, the line that `= …` below it goes on from. */
export function statementLine(fence: Fence, at: number): FenceLine | null {
  const line = lineOf(fence, at);
  if (line === null) return null;
  let first = fence.lines.indexOf(line);
  while (0 < first && goesOn(fence.lines[first]!, fence.lines[first - 1]!)) first -= 1;
  return fence.lines[first]!;
}

function goesOn(line: FenceLine, above: FenceLine): boolean {
  return (isTableLine(line) && isTableLine(above)) || /^\s*[=≈]/.test(line.text);
}
