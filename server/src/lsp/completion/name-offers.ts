import { mayTell } from '../../checks/settings.ts';
import { resolveName } from '../../language/names.ts';
import type { TermName } from '../../language/term-names.ts';
import { valueText } from '../value-text.ts';
import type { AskedBlock } from './asked-block.ts';
import { type Offer, offer } from './offer.ts';

/** Names that a formula of a block may use: its own quantities, and the terms that its instrument has. */
export function nameOffers(asked: AskedBlock, left: string): readonly Offer[] {
  const { naming, state } = asked;
  const own = new Set([
    ...naming.here.symbols.keys(),
    ...naming.here.aliases.keys(),
    ...naming.here.own.values(),
  ]);
  const taken = new Set([...own, left]);
  const terms = TERMS_OF[state.scales ?? 'vernier'].flatMap(([short, name]) => {
    const text = taken.has(short) ? name : short;
    return text === left || name === left ? [] : [{ text, name }];
  });
  return [
    offer('word', '?', 2, { detail: 'asks for the value' }),
    ...[...own]
      .filter(name => name !== left)
      .map((name, at) => offer('name', name, 3 + at / 1000, { detail: valueDetail(asked, name) })),
    ...terms.map(({ text, name }, at) => {
      const value = valueDetail(asked, text);
      return offer('name', text, (value === null ? 5 : 4) + at / 100, {
        detail: value ?? (text === name ? null : name),
        filter: text === name ? null : `${text} ${name}`,
        about: { kind: 'term', name },
      });
    }),
  ];
}

function valueDetail({ near, facts, naming }: AskedBlock, name: string): string | null {
  const subject = mayTell(near.check().settings) ? resolveName(name, naming) : null;
  return subject === null ? null : valueText(near.check(), facts, subject);
}

type Short = readonly [string, TermName];

const COMMON: readonly Short[] = [
  ['LC', 'least count'],
  ['zero error', 'zero error'],
  ['zero correction', 'zero correction'],
  ['observed reading', 'observed reading'],
  ['corrected reading', 'corrected reading'],
  ['mean observed reading', 'mean observed reading'],
  ['mean corrected reading', 'mean corrected reading'],
];
const VERNIER: readonly Short[] = [
  ['MSR', 'main scale reading'],
  ['n', 'coinciding division'],
  ['S', 'main scale division'],
  ['V', 'vernier scale division'],
  ['VSR', 'vernier scale reading'],
];
const SCREW: readonly Short[] = [
  ['LSR', 'linear scale reading'],
  ['CSR', 'circular scale reading'],
  ['pitch', 'pitch'],
  ['full rotations', 'full rotations'],
];

const TERMS_OF: Readonly<Record<NonNullable<AskedBlock['state']['scales']>, readonly Short[]>> = {
  vernier: [...VERNIER, ...COMMON],
  'angle vernier': [...VERNIER, ...COMMON],
  screw: [...SCREW, ...COMMON],
  'screw with vernier': [...SCREW, ['n', 'coinciding division'], ...COMMON],
  dial: [...SCREW, ...COMMON],
};
