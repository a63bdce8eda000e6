import type { NoteCheck } from '../checks/note-check.ts';
import * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import type { Claim, Link } from '../language/measurement.ts';
import type { Edit } from '../language/problem.ts';
import { lineVariants } from './line-variants.ts';
import { tryEdits } from './try-edits.ts';
import { type WorkingOptions, workingOf } from './working.ts';

const USUAL: WorkingOptions = { way: null };

/**
 * Makes a claim's own line the full chain of its working; its left side, its symbol and its comment stay.
 *
 * Nothing comes back for a cell of a table, for what has no working, where the line says so already, and where the
 * chain would change what the block says or be found fault with.
 */
export function chainInLineEdits(
  note: NoteCheck,
  block: number,
  claim: Claim,
  options: WorkingOptions = USUAL,
): readonly Edit[] {
  for (const edit of chainVariants(note, block, claim, options)) {
    const { start, end } = edit.span;
    if (edit.newText === note.text.slice(start, end)) return [];
    const { faulted, places, keepsFacts } = tryEdits(note, block, [edit]);
    const [place] = places;
    if (keepsFacts && !faulted.some(span => span.start < place!.end && place!.start < span.end))
      return [edit];
  }
  return [];
}

/** The edits that put the chain of a claim's working behind its left side, the fullest first. */
export function chainVariants(
  note: NoteCheck,
  block: number,
  claim: Claim,
  options: WorkingOptions,
): readonly Edit[] {
  const last = claim.links[claim.links.length - 1];
  if (claim.inTable || claim.mended || last === undefined) return [];
  if (claim.times !== null && !isOne(claim.times)) return [];
  const span = { start: claim.signSpan.start, end: last.span.end };
  const typed = note.text.slice(span.start, span.end);
  // Between lines that go on from each other a comment may stand, which nobody must lose.
  if (typed.includes('#')) return [];
  const derivation = workingOf(note, block, claim.subject, options)?.derivation;
  return (derivation === undefined ? [] : lineVariants(derivation)).map(({ chain }) => {
    const sign = typed.startsWith(':') ? ':' : chain.slice(0, 1);
    return { span, newText: `${sign}${chain.slice(1)}${errorBehind(note, chain, last)}` };
  });
}

function isOne(times: NonNullable<Claim['times']>): boolean {
  const number = times.kind === 'literal' ? Q.plainNumber(times.quantity) : null;
  return number !== null && R.equals(number, R.ONE);
}

/** The error that the claim states behind its value, where the chain has none. */
function errorBehind(note: NoteCheck, chain: string, { content, span }: Link): string {
  if (content.kind !== 'stated' || content.stated.error === null || chain.includes('±')) return '';
  const sign = note.text.slice(span.start, span.end).search(/±|\+\/-|\\pm/);
  return sign === -1 ? '' : ` ${note.text.slice(span.start + sign, span.end)}`;
}
