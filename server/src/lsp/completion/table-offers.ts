import type { Subject } from '../../language/measurement.ts';
import type { ComputedTerm } from '../../language/term-names.ts';
import { findTerm, TERMS } from '../../language/terms.ts';
import { valueText } from '../value-text.ts';
import type { AskedBlock } from './asked-block.ts';
import { isOfScales, readingsOf } from './block-state.ts';
import { type Offer, offer } from './offer.ts';

/** What may head a column: first what the instrument reads, then what is worked out from it. */
export function headOffers({ state }: AskedBlock, heads: readonly string[]): readonly Offer[] {
  const there = new Set(heads.map(head => findTerm(withoutUnit(head))?.name));
  const wanted: readonly string[] = [
    'label',
    ...readingsOf(state.scales),
    'observed reading',
    'corrected reading',
  ];
  return TERMS.filter(
    ({ name, kind }) =>
      !there.has(name) && (kind === 'observable' || wanted.includes(name)) && !NO_COLUMN.has(name),
  ).map(term => {
    const at = wanted.indexOf(term.name);
    const rank = at === -1 ? (isOfScales(term.name, state.scales) ? 9 : 19) : at;
    return offer('name', term.name, rank, {
      filter: [term.name, ...term.also.filter(name => name.length <= 4)].join(' '),
      insert: `${term.name} `,
      about: { kind: 'term', name: term.name },
    });
  });
}

const NO_COLUMN: ReadonlySet<string> = new Set(['closed', 'turned']);

/** What may stand in a cell of a computed column: its value where that may be told, and `?`. */
export function cellOffers({ near, facts }: AskedBlock, head: string, offset: number): readonly Offer[] {
  const term = findTerm(head);
  if (term?.kind !== 'computed') return findTerm(withoutUnit(head))?.kind === 'computed' ? [ASKS] : [];
  const row = facts.measurement.rows.findLast(({ span }) => span.start <= offset)?.number;
  const subject: Subject = { kind: 'term', term: term.name as ComputedTerm, row: row ?? null, block: null };
  const value = row === undefined ? null : valueText(near.check(), facts, subject);
  return value === null
    ? [ASKS]
    : [offer('value', value, 0, { detail: 'the value', insert: `${value} ` }), ASKS];
}

const ASKS = offer('word', '?', 1, { detail: 'asks for the value', insert: '? ' });

function withoutUnit(head: string): string {
  return head.replace(/\s*[([/].*$/, '');
}
