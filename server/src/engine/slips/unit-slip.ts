import { toDecimalText } from '../decimal-text.ts';
import { sameDimension } from '../dimension.ts';
import * as Q from '../quantity.ts';
import * as R from '../rational.ts';
import * as S from '../scalar.ts';
import { type Unit, unitShown, unitWord } from '../unit.ts';
import { exampleNote } from './example-note.ts';
import { formulaNames, formulaWith } from './formula-names.ts';
import { gives } from './gives.ts';
import { inWords, inWordsOf, numberWords } from './in-words.ts';
import { claimFrom, readingParts } from './reading-parts.ts';
import type { Slip, SlipData, SlipTerm, SlipValue } from './slip.ts';
import { difference, type Maybe, sum, times } from './sums.ts';
import { zeroCheck } from './zero-check.ts';

/** Two units mixed: millimetres added to centimetres, minutes taken for hundredths of a degree. */
export const unitSlip: Slip = {
  name: 'unit-slip',
  summary: 'two units were mixed, mostly mm and cm',
  explanation:
    'A main scale in centimetres and a least count in millimetres invite it: 3.3 and 4 times 0.1 is 3.7, of nothing. Write the unit beside every number, bring all parts into one unit, and only then add. Angles have their own trap: 45′ is not 0.45° but three quarters of a degree.',
  formula: 'MSR in cm + n × LC in mm, not both in one unit',
  example: exampleNote(
    'main scale: 1 cm = 10 MSD',
    'vernier scale: 10 VSD = 9 MSD',
    'main scale reading: 3.3 cm',
    'coinciding division: 4',
    'observed reading = 3.3 cm + 4 × 0.1 cm = 3.7 cm',
    '#                  ^^^^^^^^^^^^^^^^^^^ error wrong-value [unit-slip]',
  ),
  values(data) {
    return [
      ...inReading(data),
      ...inCorrection(data),
      ...inHundredths(data),
      ...inFormula(data),
      ...inWhole(data),
    ];
  },
};

const METRIC = '1 cm is 10 mm, so bring both into one unit';
const TENTH = R.rational(1, 10);

/** The factors by which a part can be off, with the reminder; none outside millimetres, centimetres and angles. */
function mixing(data: SlipData): readonly (readonly [R.Rational, string])[] {
  const { unit, dimension } = data.stated;
  if (unit?.symbol === 'mm' || unit?.symbol === 'cm') {
    return [
      [R.TEN, METRIC],
      [TENTH, METRIC],
    ];
  }
  if (dimension.angle !== 1) return [];
  return [
    [R.rational(60), '1° is 60′, and 1′ is 60″'],
    [R.rational(1, 60), '1° is 60′, and 1′ is 60″'],
    [R.rational(60, 100), MINUTES],
  ];
}

/** Only the mark or only what is added to it is in the other unit. */
function inReading(data: SlipData): readonly SlipValue[] {
  const parts = readingParts(data);
  if (parts === null) return [];
  const { mark, part } = parts;
  return mixing(data).flatMap(([factor, reminder]) => [
    ...mixed(data, part, factor, reminder, other => claimFrom(data, sum(mark, other))),
    ...mixed(data, mark, factor, reminder, other => claimFrom(data, sum(other, part))),
  ]);
}

/** Only the zero error is in the other unit. */
function inCorrection(data: SlipData): readonly SlipValue[] {
  const check = zeroCheck(data);
  if (check === null) return [];
  const { observed, zeroError } = check;
  return mixing(data).flatMap(([factor, reminder]) =>
    mixed(data, zeroError, factor, reminder, other => difference(observed, other)),
  );
}

/** One part of a sum in the other unit; a sum with more places than are stated was not what somebody wrote. */
function mixed(
  data: SlipData,
  right: Q.Quantity,
  factor: R.Rational,
  reminder: string,
  claim: (other: Maybe) => Maybe,
): readonly SlipValue[] {
  const other = times(right, factor);
  const value = claim(other);
  if (other === null || value === null || !fitsPlaces(data, value)) return [];
  return gives(
    value,
    () => `${inWords(data, other)} stands where ${inWords(data, right)} belongs; ${reminder}`,
  );
}

/** The minutes of an angle written behind the point of its degrees, 72.47° for 72° 47′, or the seconds so behind minutes. */
function inHundredths({ truth, stated, place }: SlipData): readonly SlipValue[] {
  const value = S.realValue(truth.scalar);
  if (stated.dimension.angle !== 1 || value === null || place === null) return [];
  const parts = HUNDREDS.filter(({ of }) => R.compare(place, of) < 0 && isDecimalOf(place, of));
  return parts.flatMap(({ of, finer, below, mark, reminder }) => {
    const size = R.abs(value);
    const whole = R.multiply(R.floor(R.divide(size, of)!), of);
    const number = R.divide(R.subtract(size, whole), finer)!;
    const rest = R.subtract(number, R.floor(number));
    if (R.isZero(number) || !R.isInteger(R.multiply(rest, below))) return [];
    // The seconds of degrees and minutes stand in the next two places.
    const written = R.divide(R.add(R.floor(number), R.multiply(rest, HUNDREDTHS)), HUNDRED)!;
    const wrong = R.add(whole, R.multiply(written, of));
    return gives(
      { ...truth, scalar: S.real(R.sign(value) < 0 ? R.negate(wrong) : wrong) },
      () =>
        `${numberWords(R.floor(number))}${mark.finer} was written as ${toDecimalText(R.divide(R.floor(number), HUNDRED)!, 2)}${mark.of}; ${reminder}`,
    );
  });
}

const SIXTY = R.rational(60);
const HUNDRED = R.rational(100);
const HUNDREDTHS = R.rational(60, 100);
const MINUTE = R.rational(1, 60);
const MINUTES = 'minutes are sixtieths of a degree, not hundredths';
const HUNDREDS = [
  { of: R.ONE, finer: MINUTE, below: SIXTY, mark: { of: '°', finer: '′' }, reminder: MINUTES },
  {
    of: MINUTE,
    finer: R.multiply(MINUTE, MINUTE),
    below: R.ONE,
    mark: { of: '′', finer: '″' },
    reminder: 'seconds are sixtieths of a minute, not hundredths',
  },
];

function isDecimalOf(place: R.Rational, unit: R.Rational): boolean {
  const places = R.divide(place, unit);
  return places !== null && R.terminatingPlaces(places) !== null;
}

function fitsPlaces({ place }: SlipData, { scalar }: Q.Quantity): boolean {
  const number = S.realValue(scalar);
  const places = place === null || number === null ? null : R.divide(number, place);
  return places === null || R.isInteger(places);
}

/** A name of the formula put in with its number, but in the unit of another one. */
function inFormula(data: SlipData): readonly SlipValue[] {
  const names = formulaNames(data);
  const used = new Map<string, Unit>();
  for (const { unit } of [...names.map(name => name.value), data.stated, data.truth]) {
    for (const part of unit?.parts ?? []) {
      const single = unitWord(part.symbol);
      if (single !== null) used.set(part.symbol, single);
    }
  }
  return names.flatMap(name => {
    const { unit } = name.value;
    if (unit === null || unit.parts.length !== 1 || unit.parts[0]?.exponent !== 1) return [];
    return [...used.values()].slice(0, MOST_UNITS).flatMap(other => {
      const taken = other.symbol === unit.symbol ? null : inOtherUnit(name.value, unit, other);
      return taken === null
        ? []
        : gives(
            formulaWith(data, name, taken),
            () =>
              `${name.label} is ${inWordsOf(name.value, unit)}, but was put in as ${inWordsOf(taken, other)}; bring all values into one system of units first`,
          );
    });
  });
}

const MOST_UNITS = 4;
const UNIT_TERMS: readonly SlipTerm[] = [
  'main scale reading',
  'linear scale reading',
  'least count',
  'pitch',
];
const MILLIMETRE = unitWord('mm')!;
const ANGLES = ['deg', 'arcmin', 'arcsec'].flatMap(word => unitWord(word) ?? []);

/** The number is right in a unit that the block uses, but another unit stands behind it. */
function inWhole(data: SlipData): readonly SlipValue[] {
  const stated = data.stated.unit;
  if (stated === null) return [];
  const used = new Map<string, Unit>();
  for (const quantity of [data.truth, ...UNIT_TERMS.map(term => data.value(term))]) {
    if (quantity?.unit) used.set(quantity.unit.symbol, quantity.unit);
  }
  if (stated.symbol === 'cm') used.set('mm', MILLIMETRE);
  if (stated.dimension.angle === 1) for (const unit of ANGLES) used.set(unit.symbol, unit);
  used.delete(stated.symbol);
  return [...used.values()].flatMap(unit =>
    gives(
      inOtherUnit(data.truth, unit, stated),
      () => `the number is right in ${unitShown(unit)}, but ${unitShown(stated)} stands behind it`,
    ),
  );
}

/** The number that a value is in one unit, taken in another. */
function inOtherUnit(value: Q.Quantity, unit: Unit, other: Unit): Maybe {
  if (!sameDimension(unit.dimension, other.dimension)) return null;
  const number = Q.inUnit(value, unit);
  if (number === null || S.isZero(number)) return null;
  return Q.quantity(number, other);
}
