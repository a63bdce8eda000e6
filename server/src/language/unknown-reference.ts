import { type Draft, report } from './draft.ts';
import { blockKey } from './names.ts';
import type { Span } from './syntax.ts';
import { editDistance, findTerm } from './terms.ts';

/**
 * Says that a reference leads nowhere: `observed reading of second of hub-ball`. What is nearly the name of a row or a
 * block is offered.
 *
 * `text` is the whole reference, `rest` what stands behind its first "of" that no name covers.
 */
export function reportUnknownReference(draft: Draft, text: string, rest: string, span: Span): void {
  const { here, note } = draft.names;
  const blocks = draft.blockNames;
  const at = rest.lastIndexOf(' of ');
  const tail = at === -1 ? rest : rest.slice(at + 4);
  const block = note.get(blockKey(tail));
  if (block !== undefined) {
    const missed =
      at === -1 ? text.slice(0, text.length - rest.length).replace(/ of $/, '') : rest.slice(0, at);
    const rows = [...block.labels.keys()].slice(0, MOST_LISTED);
    const known = at === -1 || rows.length === 0 ? '' : `; its rows are ${rows.join(', ')}`;
    report(
      draft,
      'unknown-block',
      span,
      `${tail} has ${at === -1 ? 'nothing' : 'no row'} called ${missed}${known}`,
    );
    return;
  }
  const near = nearest(tail, at === -1 ? [...here.labels.keys(), ...blocks] : blocks);
  const known =
    near !== null
      ? `${near} is likely meant`
      : at === -1 && here.labels.size > 0
        ? `the rows of this block are ${[...here.labels.keys()].slice(0, MOST_LISTED).join(', ')}`
        : blocks.length === 0
          ? 'this note has no named block'
          : `the blocks of this note are ${blocks.slice(0, MOST_LISTED).join(', ')}`;
  const meant = near === null ? null : text.slice(0, text.length - tail.length) + near;
  report(
    draft,
    'unknown-block',
    span,
    `${rest} is no row of this block, no quantity and no block of this note; ${known}`,
    meant === null ? [] : [{ title: `Write ${meant}`, edits: [{ span, newText: meant }], sure: false }],
  );
}

/** What stands behind the term of a reference: `second of hub-ball` of `percentage error of observed reading of second of hub-ball`. */
export function restOfReference(text: string): string {
  const pieces = text.split(' of ');
  const of = pieces.findIndex(piece => findTerm(piece)?.kind !== 'statistic');
  return pieces.slice(Math.min(of < 0 ? pieces.length : of + 1, pieces.length - 1)).join(' of ');
}

/** So many names are listed at most, and so many compared. */
const MOST_LISTED = 8;
const MOST_COMPARED = 500;

/** The name that is at most two letters off, and nearer than any other; a row's number is no slip of the pen. */
function nearest(text: string, names: readonly string[]): string | null {
  const typed = blockKey(text);
  if (typed.length < 4 || typed.length > 40) return null;
  const digits = digitsOf(typed);
  let best: { names: readonly string[]; distance: number } = { names: [], distance: 2 };
  for (const name of names.slice(0, MOST_COMPARED)) {
    const key = blockKey(name);
    const distance = editDistance(typed, key, 2);
    if (distance > best.distance || (digits !== '' && digits !== digitsOf(key))) continue;
    best = { names: distance < best.distance ? [name] : [...best.names, name], distance };
  }
  return best.names.length === 1 ? best.names[0]! : null;
}

function digitsOf(text: string): string {
  return text.replace(/\D+/g, ' ').trim();
}
