import { INSTRUMENTS } from '../../language/instruments.ts';
import { statisticOf } from '../../language/names.ts';
import type { TermName } from '../../language/term-names.ts';
import { TERMS, type Term, termNamed } from '../../language/terms.ts';
import { type BlockState, isOfScales } from './block-state.ts';
import { closedForms } from './closed-forms.ts';
import { type Offer, offer, snippetChoice } from './offer.ts';

/** What a block and its note name, and how far it has come. */
export interface LineContext {
  readonly state: BlockState;
  /** Names of other blocks. */
  readonly blocks: readonly string[];
  /** Letters of the choices that stand already. */
  readonly letters: readonly string[];
  readonly isAsked: boolean;
}

/** What may begin a statement, in the order in which the block wants it: scales, zero check, readings, what is worked out. */
export function lineOffers({ state, blocks, letters, isAsked }: LineContext): readonly Offer[] {
  const offers: Offer[] = [];
  const offered = new Set<TermName>();
  const add = (term: Term, rank: number): void => {
    if (offered.has(term.name)) return;
    offered.add(term.name);
    offers.push(...termOffers(term, rank, { state, blocks }));
  };
  if (isAsked) offers.push(...questionOffers(letters, 0));
  if (state.scales === null && !state.recorded.has('uses')) add(termNamed('uses'), 1.2);
  for (const [rank, terms] of state.wanted.entries()) {
    for (const [at, name] of terms.entries()) add(termNamed(name), 1 + rank + at / 100);
  }
  for (const term of TERMS) {
    if (NEVER.has(term.name) || (state.recorded.has(term.name) && !MAY_REPEAT.has(term.name))) continue;
    const isFar = !isOfScales(term.name, state.scales) || (term.name.startsWith('mean ') && !state.hasRows);
    add(term, (REST.get(term.kind) ?? 10) + (isFar ? 10 : 0));
  }
  if (!isAsked) offers.push(...questionOffers(letters, 11));
  return offers;
}

/** Words that begin no line, and the choices, which have a form of their own. */
const NEVER: ReadonlySet<TermName> = new Set(['label', 'option', 'answer', 'rotation', 'mean']);

const MAY_REPEAT: ReadonlySet<TermName> = new Set([
  'closed',
  'waive',
  'main scale',
  'vernier scale',
  'linear scale',
  'circular scale',
  'screw',
]);

const REST: ReadonlyMap<Term['kind'], number> = new Map([
  ['computed', 7],
  ['observable', 8],
  ['statistic', 9],
  ['scale', 10],
  ['division', 10],
  ['record', 10],
]);

function termOffers(
  term: Term,
  rank: number,
  { state, blocks }: Pick<LineContext, 'state' | 'blocks'>,
): readonly Offer[] {
  const filter = [term.name, ...term.also.filter(name => name.length <= SHORT)].join(' ');
  const more = { filter, about: { kind: 'term', name: term.name } as const };
  switch (term.kind) {
    case 'computed':
      return [
        offer('claim', term.name, rank, {
          ...more,
          detail: term.formula === undefined ? null : shortened(term.formula),
          insert: `${term.name} = `,
        }),
      ];
    case 'statistic':
      return statisticOf(term) === null
        ? []
        : [offer('claim', term.name, rank, { ...more, detail: 'of …', insert: `${term.name} of ` })];
    case 'division':
      return [
        offer('claim', `1 ${term.also[0]}`, rank, {
          ...more,
          detail: term.name,
          insert: `1 ${term.also[0]} = `,
        }),
      ];
    case 'record':
    case 'scale':
    case 'observable': {
      const words = choicesOf(term.name, state, blocks);
      if (words === null || words.length === 0)
        return term.name === 'uses'
          ? []
          : [offer('record', term.name, rank, { ...more, insert: `${term.name}: ` })];
      return [
        offer('record', term.name, rank, {
          ...more,
          insert: `${term.name}: ${snippetChoice(words)}`,
          isSnippet: true,
        }),
      ];
    }
  }
}

const SHORT = 4;
const LONGEST_DETAIL = 40;

function shortened(formula: string): string | null {
  return formula.length <= LONGEST_DETAIL ? formula : null;
}

/** Records whose value is one of a few words; null for all others. */
function choicesOf(term: TermName, state: BlockState, blocks: readonly string[]): readonly string[] | null {
  switch (term) {
    case 'instrument':
      return INSTRUMENTS.map(({ name }) => name);
    case 'uses':
      return blocks.slice(0, MOST_CHOICES);
    case 'closed':
      return closedForms(state.scales);
    case 'error rule':
      return ERROR_RULES;
    case 'vernier runs':
      return ['backward', 'forward'];
    case 'turned':
      return ['toward higher numbers', 'toward lower numbers'];
    default:
      return null;
  }
}

const MOST_CHOICES = 50;

export const ERROR_RULES = [
  'least count',
  'half the least count',
  'mean absolute error',
  'rectangular',
  'standard deviation of the mean',
] as const;

/** The next choice, and the key once there are two. */
function questionOffers(letters: readonly string[], rank: number): readonly Offer[] {
  const next = String.fromCharCode('A'.charCodeAt(0) + letters.length);
  const option = offer('record', `option ${next}`, rank, {
    insert: `option ${next}: `,
    about: { kind: 'term', name: 'option' },
  });
  const answer = offer('record', 'answer', letters.length < 2 ? rank + 0.5 : rank - 0.5, {
    insert: letters.length < 2 ? 'answer = ' : `answer = ${snippetChoice(letters)}`,
    isSnippet: letters.length >= 2,
    about: { kind: 'term', name: 'answer' },
  });
  return letters.length < 26 ? [option, answer] : [answer];
}
