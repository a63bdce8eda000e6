import { type Dimension, isPlain, sameDimension } from '../../engine/dimension.ts';
import { unitShown, unitWord } from '../../engine/unit.ts';
import { findTerm } from '../../language/terms.ts';
import type { AskedBlock } from './asked-block.ts';
import { subjectOfLeft } from './link-offers.ts';
import { type Offer, offer } from './offer.ts';

/** Units as this trade writes them, the usual ones first. */
const USUAL = [
  ...['mm', 'cm', 'm', 'um', 'in'],
  ...['deg', 'arcmin', 'arcsec'],
  ...['g', 'kg', 'mg'],
  ...['s', 'min', 'h'],
  ...['%', 'degC', 'Pa', 'kPa', 'mmHg', 'N', 'J', 'V', 'A', 'K'],
];
const COMPOUND = ['mm^2', 'cm^2', 'm^2', 'mm^3', 'cm^3', 'm^3', 'g/cm^3', 'kg/m^3', 'm/s', 'm/s^2', 'N/m^2'];

/** Units that fit behind a number of a line; none for a count, and for what is claimed to be a mere number. */
export function unitOffers(asked: AskedBlock, left: string, isRecord: boolean): readonly Offer[] {
  const term = findTerm(left);
  const scales = SCALE_OF[term?.name ?? ''];
  if (term !== null && COUNTS.has(term.name)) return [];
  if (scales !== undefined) return scaleOffers(asked, scales);
  const { facts, naming } = asked;
  const subject = subjectOfLeft(left.replace(/\s*[([/].*$/, ''), naming);
  const answer = subject === null ? null : facts.value(subject);
  const isNumber = answer?.ok === true && subject?.kind !== 'statistic' && isPlain(answer.quantity.dimension);
  if (isNumber && !isRecord) return [];
  // A record is a mere number only as long as its unit is not typed.
  const value = isNumber ? null : answer;
  const isReading = term?.kind === 'observable' || (term?.kind === 'computed' && term.name !== 'pitch');
  const wanted = value?.ok ? value.quantity.dimension : isReading ? (facts.scales().dimension ?? null) : null;
  const written = value?.ok ? value.quantity.unit : facts.scales().unit;
  return unitsOf(wanted, written === null ? null : unitShown(written));
}

const COUNTS: ReadonlySet<string> = new Set([
  'coinciding division',
  'full rotations',
  'circular scale reading',
  'initial circular reading',
  'final circular reading',
  'coverage factor',
  'relative error',
]);

const SCALE_OF: Readonly<Record<string, readonly string[]>> = {
  'main scale': ['MSD'],
  'vernier scale': ['VSD', 'MSD', 'divisions'],
  'linear scale': ['LSD'],
  'circular scale': ['divisions', 'CSD'],
  screw: ['rotations'],
};

function scaleOffers({ state }: AskedBlock, divisions: readonly string[]): readonly Offer[] {
  const units = state.scales === 'angle vernier' ? ['°', '′'] : ['mm', 'cm'];
  const onScrew = state.scales === 'screw with vernier' ? ['CSD'] : [];
  return [...divisions, ...onScrew, ...units].map((unit, at) => offer('unit', unit, at / 100));
}

function unitsOf(wanted: Dimension | null, first: string | null): readonly Offer[] {
  const simple = USUAL.flatMap(word => {
    const unit = unitWord(word);
    if (unit === null || (wanted !== null && !sameDimension(unit.dimension, wanted))) return [];
    return [unitShown(unit)];
  });
  const isSimple = wanted !== null && simple.length > 0;
  const all = [...new Set([...(first === null ? [] : [first]), ...simple, ...(isSimple ? [] : COMPOUND)])];
  return all.map((unit, at) =>
    offer('unit', unit, at / 100, { filter: TYPED[unit] === undefined ? null : `${unit} ${TYPED[unit]}` }),
  );
}

/** How signs that no key has are typed. */
const TYPED: Readonly<Record<string, string>> = {
  '°': 'deg degree',
  '′': 'arcmin minute',
  '″': 'arcsec second',
};
