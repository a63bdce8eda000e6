import { mayTell } from '../../checks/settings.ts';
import { ownerOf } from '../../language/facts-error.ts';
import { readLeftSide } from '../../language/left-side.ts';
import { tokenize } from '../../language/lexer.ts';
import type { Subject } from '../../language/measurement.ts';
import { resolveName } from '../../language/names.ts';
import { claimLine } from '../../render/derivation-lines.ts';
import { workingOf } from '../../workings/working.ts';
import { valueText } from '../value-text.ts';
import type { AskedBlock } from './asked-block.ts';
import { nameOffers } from './name-offers.ts';
import { type Offer, offer } from './offer.ts';

/** What may stand behind an equals sign: the value and its working where they may be told, `?`, names. */
export function linkOffers(asked: AskedBlock, left: string, isEmpty: boolean): readonly Offer[] {
  const names = nameOffers(asked, left);
  if (!isEmpty) return names.filter(({ label }) => label !== '?');
  if (/^(?:answer|ans|key)$/i.test(left)) return keyOffers(asked);
  return [...workedOffers(asked, left), ...names];
}

/** The letters of the choices, with what they say. */
function keyOffers({ measurement }: AskedBlock): readonly Offer[] {
  return measurement.question.options.map(({ letter, text }, at) =>
    offer('word', letter, at / 100, { detail: text }),
  );
}

/** The value of what a line claims, and the line written out; nothing where a student is to find it. */
function workedOffers({ near, facts, naming }: AskedBlock, left: string): readonly Offer[] {
  const check = near.check();
  const subject = mayTell(check.settings) ? subjectOfLeft(left, naming) : null;
  if (subject === null) return [];
  const value = valueText(check, facts, subject);
  if (value === null) return [];
  const home = ownerOf(facts, subject);
  const working = home && workingOf(check, home.facts.index, home.subject);
  const lines = (working?.derivation.steps ?? []).flatMap(step => claimLine(step) ?? []);
  const worked = lines.at(-1)?.replace(/^[^=≈]*[=≈] /, '');
  const offers = [offer('value', value, 1, { detail: 'the value' })];
  return worked === undefined || worked === value
    ? offers
    : [offer('value', worked, 0, { detail: 'worked out' }), ...offers];
}

/** What the words before a sign mean: `density rho`, `percentage error of t`. */
export function subjectOfLeft(left: string, naming: AskedBlock['naming']): Subject | null {
  const side = readLeftSide(tokenize(left, 0).tokens);
  switch (side.kind) {
    case 'term':
      return resolveName(side.term.name, naming);
    case 'reference':
      return resolveName(side.text, naming);
    case 'own':
      return resolveName(side.symbol ?? side.words, naming);
    case 'divisions':
      return side.count[0]?.text === '1' && side.count.length === 1
        ? { kind: 'division', division: side.division, block: null }
        : null;
    case 'multiple':
    case 'option':
    case 'none':
      return null;
  }
}
