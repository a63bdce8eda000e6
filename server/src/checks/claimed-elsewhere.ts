import type { Expression } from '../engine/expression.ts';
import type { Measurement, Subject } from '../language/measurement.ts';
import { blockKey } from '../language/names.ts';
import type { Fix } from '../language/problem.ts';
import type { Span } from '../language/syntax.ts';
import type { NoteCheck } from './note-check.ts';

/** What a message says of a quantity that another block works out, with the fix that names the block. */
export interface SaidElsewhere {
  readonly message: string;
  readonly fixes: readonly Fix[];
}

/**
 * A quantity that the block whose records are used works out, `A = l b`: `uses` takes over records and no claims, so that
 * it is `A of spoke` here. Null for a quantity that no such block claims, or that this block speaks of itself.
 */
export function claimedElsewhere(
  note: NoteCheck,
  { uses, claims, own }: Measurement,
  subject: Subject,
  text: string,
  span: Span | null,
): SaidElsewhere | null {
  if (uses === null || subject.kind !== 'own' || subject.block !== null || subject.row !== null) return null;
  const isClaim = (claim: Measurement['claims'][number]): boolean =>
    claim.subject.kind === 'own' && claim.subject.name === subject.name;
  const there = note.measurements.find(({ name }) => name !== null && blockKey(name) === blockKey(uses.name));
  if (there === undefined || own.has(subject.name) || claims.some(isClaim) || !there.claims.some(isClaim))
    return null;
  const meant = `${text} of ${there.name}`;
  return {
    message: `${text} is worked out in ${there.name}, and uses takes over only what a block records: write ${meant}`,
    fixes: span === null ? [] : [{ title: `Write ${meant}`, edits: [{ span, newText: meant }], sure: false }],
  };
}

/** The same for the names of a link, the first that is such a quantity. */
export function claimedElsewhereIn(
  note: NoteCheck,
  measurement: Measurement,
  spans: ReadonlyMap<Expression, Span>,
): SaidElsewhere | null {
  for (const [part, span] of spans) {
    const subject = part.kind === 'name' ? measurement.subjects.get(part.key) : undefined;
    if (part.kind !== 'name' || subject === undefined) continue;
    const said = claimedElsewhere(note, measurement, subject, part.text, span);
    if (said !== null) return said;
  }
  return null;
}
