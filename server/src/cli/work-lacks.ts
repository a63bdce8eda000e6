import { checkedNote } from '../checks/check.ts';
import { type LineIndex, placeAt } from '../checks/line-index.ts';
import type { NoteCheck } from '../checks/note-check.ts';
import { complain } from './complain.ts';
import type { WorkTarget } from './work-target.ts';

/** A note whose workings are asked for, with the numbers of the blocks that are meant. */
export interface Work {
  readonly target: Extract<WorkTarget, { readonly ok: true }>;
  readonly note: NoteCheck;
  readonly index: LineIndex;
  readonly blocks: readonly number[];
}

/**
 * Says on standard error what cannot be worked out, and what to record for it; `texts` are the blocks' workings. Gives
 * whether something is missing.
 */
export function tellWhatIsMissing(work: Work, texts: readonly string[]): boolean {
  const { note, blocks, target } = work;
  // What is missing is told even where its rule is off: nothing can be shown without it.
  const lacks = checkedNote({ ...note, settings: { ...note.settings, rules: {} } }).findings.filter(
    ({ rule, severity, waived }) => waived === null && severity === 'error' && LEAVES_OPEN.has(rule),
  );
  let any = false;
  let next = 0;
  for (const [at, block] of blocks.entries()) {
    const { span } = note.measurements[block]!.fence;
    while (next < lacks.length && lacks[next]!.span.start < span.start) next += 1;
    for (; next < lacks.length && lacks[next]!.span.start < span.end; next++) {
      const { rule, message } = lacks[next]!;
      if (rule !== 'undetermined' && texts[at] !== '') continue;
      complain(`${blockName(work, block)}: ${message}`);
      any = true;
    }
  }
  if (!any && texts.every(text => text === '')) {
    const [only] = blocks;
    const what = blocks.length === 1 && only !== undefined ? blockName(work, only) : target.shown;
    complain(`${what} leaves nothing to work out`);
    return true;
  }
  return any;
}

/** A block as sentences call it. */
export function blockName({ note, index }: Work, block: number): string {
  const { name, fence } = note.measurements[block]!;
  return name ?? `the block in line ${placeAt(index, fence.span.start).line}`;
}

/** Findings that can be why a block, or something in it, is not worked out. */
const LEAVES_OPEN: ReadonlySet<string> = new Set([
  'undetermined',
  'unreadable-line',
  'unknown-term',
  'missing-unit',
  'unit-mismatch',
  'unknown-block',
  'circular-reference',
  'contradicting-scales',
  'impossible-reading',
  'ambiguous-reading',
  'limit',
]);
