import { INSTRUMENTS, type InstrumentScales } from '../../language/instruments.ts';
import { RULE_NAMES } from '../../language/rule-names.ts';
import type { TermName } from '../../language/term-names.ts';
import { findTerm, TERMS } from '../../language/terms.ts';
import type { AskedBlock } from './asked-block.ts';
import { closedForms } from './closed-forms.ts';
import { ERROR_RULES } from './line-offers.ts';
import { nameOffers } from './name-offers.ts';
import { type Offer, offer } from './offer.ts';

/** What may stand behind a record's colon. */
export function valueOffers(asked: AskedBlock, left: string): readonly Offer[] {
  const term = findTerm(left)?.name ?? null;
  if (term === null) return ownOffers(asked, left);
  const { state } = asked;
  const words = (values: readonly string[]): readonly Offer[] =>
    values.map((value, at) => offer('word', value, at / 100));
  switch (term) {
    case 'instrument':
      return INSTRUMENTS.map(({ name, also }, at) =>
        offer('word', name, at / 100, {
          filter: [name, ...also].join(' '),
          about: { kind: 'instrument', name },
        }),
      );
    case 'error rule':
      return words(ERROR_RULES);
    case 'vernier runs':
      return words(['backward', 'forward']);
    case 'turned':
      return words(['toward higher numbers', 'toward lower numbers']);
    case 'closed':
      return words(closedForms(state.scales));
    case 'uses':
      return asked.blocks.map((name, at) => offer('block', name, at / 1000));
    case 'waive':
      return RULE_NAMES.map((name, at) =>
        offer('word', name, at / 100, { insert: `${name}, `, about: { kind: 'rule', name } }),
      );
    case 'option':
      return words(['none of these']);
    case 'find':
      return findOffers(asked);
    default:
      return words(scaleForms(term, state.scales));
  }
}

/** The usual forms of a scale's line. */
function scaleForms(term: TermName, scales: InstrumentScales | null): readonly string[] {
  const isAngle = scales === 'angle vernier';
  switch (term) {
    case 'main scale':
      return isAngle
        ? ['1° = 2 MSD', '1° = 1 MSD', '1 MSD = 20′', '1 MSD = 10′']
        : ['1 mm = 1 MSD', '1 mm = 2 MSD', '1 cm = 10 MSD', '1 cm = 20 MSD'];
    case 'vernier scale':
      if (scales === 'screw with vernier') return ['10 VSD = 9 CSD', '5 VSD = 4 CSD'];
      return isAngle
        ? ['30 VSD = 29 MSD', '60 VSD = 59 MSD', '12 VSD = 23 MSD']
        : ['10 VSD = 9 MSD', '20 VSD = 19 MSD', '25 VSD = 24 MSD', '50 VSD = 49 MSD', '20 VSD = 39 MSD'];
    case 'linear scale':
      return ['1 mm = 1 LSD', '1 mm = 2 LSD'];
    case 'circular scale':
      return ['50 divisions', '100 divisions'];
    case 'screw':
      return ['2 rotations = 1 mm', '1 rotation = 1 mm', '5 rotations = 2.5 mm'];
    case 'pitch':
      return ['0.5 mm', '1 mm'];
    case 'measuring range':
      return isAngle ? ['0° to 360°'] : ['0 mm to 150 mm', '0 mm to 25 mm'];
    case 'coverage factor':
      return ['2', '3'];
    default:
      return [];
  }
}

const LETTERS = ['any length', 'any angle', 'any mass', 'any time', 'any number', 'any whole number'];

/** A quantity of one's own may be a letter, or a value from elsewhere. */
function ownOffers(asked: AskedBlock, left: string): readonly Offer[] {
  if (left === '' || /^(?:option|choice)\b/i.test(left))
    return left === '' ? [] : [offer('word', 'none of these', 0)];
  return [
    ...nameOffers(asked, left).filter(({ label }) => label !== '?'),
    ...LETTERS.map((word, at) => offer('word', word, 20 + at / 100)),
  ];
}

function findOffers(asked: AskedBlock): readonly Offer[] {
  const { measurement } = asked;
  const own = [...measurement.own.keys(), ...measurement.claims.flatMap(({ symbol }) => symbol ?? [])];
  return [
    ...TERMS.filter(({ kind }) => kind === 'computed').map((term, at) =>
      offer('name', term.name, 1 + at / 100, {
        filter: [term.name, ...term.also].join(' '),
        about: { kind: 'term', name: term.name },
      }),
    ),
    ...TERMS.filter(({ kind }) => kind === 'statistic').map((term, at) =>
      offer('name', term.name, 2 + at / 100, {
        insert: `${term.name} of `,
        about: { kind: 'term', name: term.name },
      }),
    ),
    ...[...new Set(own)].map((name, at) => offer('name', name, at / 100)),
  ];
}
