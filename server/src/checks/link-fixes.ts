import { evaluateStated } from '../language/evaluate-in.ts';
import type { Facts } from '../language/facts.ts';
import type { Link } from '../language/measurement.ts';
import type { Fix } from '../language/problem.ts';
import { agrees } from './agreement.ts';
import { valueSpan } from './finding-from.ts';
import { placeOf } from './link-value.ts';
import type { NoteCheck } from './note-check.ts';
import { valueEdit } from './value-edit.ts';
import type { Verdict } from './verdict.ts';

/**
 * The ways to put a wrong link right, `right` being the right value as it is written there.
 *
 * A value is written over. A formula or numbers put in are left out where the right value stands behind them; else the
 * right value takes their place and that of what follows from them. Only the first is surely what was meant.
 */
export function linkFixes(
  { text }: NoteCheck,
  facts: Facts,
  verdict: Extract<Verdict, { readonly kind: 'wrong' | 'carried' | 'rounded-early' }>,
  right: string,
  typed: string,
): readonly Fix[] {
  const { claim, link, truth, stated } = verdict;
  if (claim.mended || link?.content.kind !== 'stated') return [];
  if (link.content.stated.isValue)
    return [
      {
        title: `Write ${right}`,
        edits: [valueEdit(text, valueSpan(verdict), stated.quantity, right)],
        // Where numbers are claimed of numbers, either side may be the wrong one.
        sure: !facts.measurement.sums.includes(claim),
      },
    ];
  const later = claim.links.slice(claim.links.indexOf(link) + 1);
  const isRight = ({ content }: Link): boolean => {
    if (content.kind !== 'stated' || claim.times !== null) return false;
    const value = evaluateStated(facts, content.stated, truth.dimension);
    const place = placeOf(content.stated.expression);
    return value.ok && agrees(facts, claim.subject, truth, { quantity: value.quantity, place });
  };
  const next = later.find(isRight);
  if (next !== undefined) {
    const span = { start: link.span.start, end: next.span.start };
    return [{ title: `Leave out ${typed}`, edits: [{ span, newText: '' }], sure: false }];
  }
  if (later.some(({ content }) => content.kind !== 'stated' || content.stated.error !== null)) return [];
  const span = { start: link.span.start, end: (later.at(-1) ?? link).span.end };
  return [{ title: `Write ${right}`, edits: [{ span, newText: right }], sure: false }];
}

/** Writes the right error behind ±, with its unit where one was written there. */
export function errorFixes(
  { text }: NoteCheck,
  { claim, link, stated: { quantity } }: Extract<Verdict, { readonly kind: 'wrong' }>,
  right: string,
): readonly Fix[] {
  const stated = link?.content.kind === 'stated' ? link.content.stated : null;
  const span = stated?.error == null ? undefined : stated.spans.get(stated.error);
  if (claim.mended || span === undefined) return [];
  const edit = valueEdit(text, span, quantity, right);
  return [{ title: `Write ± ${edit.newText}`, edits: [edit], sure: true }];
}
