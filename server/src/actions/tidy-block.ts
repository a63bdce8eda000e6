import { checkNote } from '../checks/check.ts';
import type { CheckedNote } from '../checks/finding.ts';
import type { NoteCheck } from '../checks/note-check.ts';
import { formatBlock } from '../language/format-block.ts';
import { parseBlock } from '../language/parser.ts';
import type { Edit } from '../language/problem.ts';
import type { RuleName } from '../language/rule-names.ts';
import type { Span } from '../language/syntax.ts';
import type { Action, ActionContext } from './action.ts';
import { blockAt, meets } from './places.ts';
import { withEdits } from './settled-edits.ts';

/** Sets the block where the cursor stands in order: spaces, signs, columns. On offer only where something changes. */
export function tidyBlock(context: ActionContext): readonly Action[] {
  const facts = blockAt(context);
  if (facts === null || edited(context.note, facts.index).length === 0) return [];
  return [
    {
      title: 'Tidy this block',
      kind: 'refactor.rewrite',
      finding: null,
      isSure: false,
      edits: () => tidyEdits(context, facts.measurement.fence.span),
    },
  ];
}

/**
 * The edits that tidy the blocks which `span` meets, all of them where it is null.
 *
 * Where the tidied note would be found fault with for anything else than before, which it should not, it is left as it is.
 */
export function tidyEdits(
  { text, note, checked }: Pick<ActionContext, 'text' | 'note' | 'checked'>,
  span: Span | null,
): readonly Edit[] {
  const blocks = note.measurements
    .slice(0, note.fences)
    .flatMap(({ fence }, index) => (span === null || meets(fence.span, span) ? [index] : []));
  const edits = blocks.flatMap(index => edited(note, index));
  if (edits.length === 0 || isSameFault(checked, checkNote(withEdits(text, edits), note.settings)))
    return edits;
  // One block that cannot be tidied does not keep the others from it.
  return blocks.length === 1
    ? []
    : blocks.flatMap(index => tidyEdits({ text, note, checked }, note.measurements[index]!.fence.span));
}

function edited(note: NoteCheck, block: number): readonly Edit[] {
  const measurement = note.measurements[block]!;
  return formatBlock(parseBlock(measurement.fence), measurement);
}

/** Whether a check finds the same as before, but for signs that were mended. */
function isSameFault(before: CheckedNote, after: CheckedNote): boolean {
  const left = new Map<string, number>();
  for (const fault of faultsOf(before)) left.set(fault, (left.get(fault) ?? 0) + 1);
  for (const fault of faultsOf(after)) left.set(fault, (left.get(fault) ?? 0) - 1);
  return [...left].every(
    ([fault, count]) => count === 0 || (count > 0 && fault.startsWith('not-plain' satisfies RuleName)),
  );
}

/** What is found, however the line is spaced that it speaks of. */
function faultsOf({ findings }: CheckedNote): readonly string[] {
  return findings.map(
    ({ rule, message }) => `${rule} ${message.replace(/\s/g, '').replace(/[*xX✕✖]/g, '×')}`,
  );
}
