import type { Finding } from '../checks/finding.ts';
import type { Facts } from '../language/facts.ts';
import type { Span } from '../language/syntax.ts';
import type { ActionContext } from './action.ts';

/** Whether two places have a character, or a gap between two, in common. */
export function meets(a: Span, b: Span): boolean {
  return a.start <= b.end && b.start <= a.end;
}

/** The block that the cursor stands in; null in the prose. */
export function blockAt({ note, span }: ActionContext): Facts | null {
  const index = note.measurements
    .slice(0, note.fences)
    .findIndex(({ fence }) => fence.span.start <= span.start && span.start <= fence.span.end);
  return index === -1 ? null : note.facts.block(index);
}

/** What is found where the cursor stands and nobody has waived. */
export function findingsAt({ checked, span }: ActionContext): readonly Finding[] {
  return checked.findings.filter(finding => finding.waived === null && meets(finding.span, span));
}
