/**
 * The places of marks that only make words bold or slanted: `**LC**`, `__LC__`, `*LC* = …`, `_LC_`.
 *
 * Two stars count as bold unless they stand between two operands (`2**3`, `a ** b`). One star counts
 * only where it opens the line and has a partner, because anywhere else it is a multiplication sign.
 */
export function emphasisMarks(text: string, end: number): ReadonlySet<number> {
  if (end > LONGEST_LINE || (!text.includes('*') && !text.includes('_'))) return NO_MARKS;
  const marks = new Set<number>();
  const first = firstInk(text, end);
  const last = lastInk(text, end);
  let openStars: number | null = null;
  let at = first;
  while (at < end) {
    const character = text[at];
    const double = (character === '*' || character === '_') && text[at + 1] === character && at + 1 < end;
    if (!double) {
      at += 1;
      continue;
    }
    const opens = isOpen(text[at - 1], at === first) && isInk(text[at + 2], at + 2 < end);
    const closes = isInk(text[at - 1], at > first) && isOpen(text[at + 2], at + 2 >= end);
    const outermost = at === first || at + 1 === last;
    const pairs: boolean = openStars !== null && text[openStars] === character && closes;
    if (outermost || pairs) {
      marks.add(at).add(at + 1);
      if (pairs && openStars !== null) marks.add(openStars).add(openStars + 1);
      openStars = opens && !pairs ? at : null;
    } else if (opens) {
      openStars = at;
    }
    at += 2;
  }
  addSlanted(text, end, marks);
  return marks;
}

const NO_MARKS: ReadonlySet<number> = new Set();

/** In a line beyond this length nobody emphasises anything. */
const LONGEST_LINE = 10_000;

/** One star or underscore, where it opens the line and closes again. */
function addSlanted(text: string, end: number, marks: Set<number>): void {
  let from = firstInk(text, end);
  while (marks.has(from)) from += 1;
  const mark = text[from];
  if ((mark !== '*' && mark !== '_') || text[from + 1] === mark) return;
  if (!isInk(text[from + 1], from + 1 < end)) return;
  for (let at = from + 2; at < end; at += 1) {
    if (text[at] !== mark || marks.has(at)) continue;
    if (isInk(text[at - 1], true) && isOpen(text[at + 1], at + 1 >= end)) {
      marks.add(from).add(at);
      return;
    }
  }
}

const LETTER_OR_DIGIT = /^[\p{L}\p{N}]$/u;

/** Nothing that a word or a number could go on with. */
function isOpen(character: string | undefined, atEdge: boolean): boolean {
  return atEdge || character === undefined || !LETTER_OR_DIGIT.test(character);
}

function isInk(character: string | undefined, inside: boolean): boolean {
  return inside && character !== undefined && !/^\s$/.test(character);
}

function firstInk(text: string, end: number): number {
  let at = 0;
  while (at < end && /^\s$/.test(text[at] as string)) at += 1;
  return at;
}

function lastInk(text: string, end: number): number {
  let at = end - 1;
  while (0 <= at && /^\s$/.test(text[at] as string)) at -= 1;
  return at;
}
