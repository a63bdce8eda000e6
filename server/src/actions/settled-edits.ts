import type { Edit, Fix } from '../language/problem.ts';
import type { Span } from '../language/syntax.ts';

/** Edits that can be made at once, and how many fixes they are. */
export interface SettledEdits {
  readonly edits: readonly Edit[];
  readonly fixes: number;
}

/** The edits of all fixes that do not meet one before them; the others wait until these are made. */
export function settledEdits(fixes: readonly Fix[]): SettledEdits {
  // In the order of their places, so that a note of ten thousand slips is soon settled.
  const taken: Edit[] = [];
  let count = 0;
  for (const { edits } of fixes) {
    if (edits.some(({ span }) => (taken[placeAmong(taken, span)]?.span.start ?? Infinity) <= span.end))
      continue;
    for (const edit of inOrder(edits)) taken.splice(placeBehind(taken, edit.span), 0, edit);
    if (edits.length > 0) count++;
  }
  return { edits: taken, fixes: count };
}

/** The first of the edits that does not end before a span begins. */
function placeAmong(edits: readonly Edit[], { start }: Span): number {
  return firstWhere(edits, edit => start <= edit.span.end);
}

function placeBehind(edits: readonly Edit[], { start }: Span): number {
  return firstWhere(edits, edit => start < edit.span.start);
}

/** Where a question that is answered with no up to some place, and with yes from there on, turns. */
function firstWhere(edits: readonly Edit[], isBehind: (edit: Edit) => boolean): number {
  let low = 0;
  let high = edits.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (isBehind(edits[middle]!)) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** Edits as they stand in the note, from its beginning; insertions at one place keep their order. */
export function inOrder(edits: readonly Edit[]): readonly Edit[] {
  return [...edits].sort((a, b) => a.span.start - b.span.start || a.span.end - b.span.end);
}

/** The text with the edits made; they must not overlap. */
export function withEdits(text: string, edits: readonly Edit[]): string {
  let made = '';
  let from = 0;
  for (const { span, newText } of inOrder(edits)) {
    made += text.slice(from, span.start) + newText;
    from = span.end;
  }
  return made + text.slice(from);
}
