import * as R from '../rational.ts';
import * as S from '../scalar.ts';
import { exampleNote } from './example-note.ts';
import { gives } from './gives.ts';
import type { Slip, SlipData } from './slip.ts';

/** Two neighbouring digits written in the wrong order. */
export const digitsSwapped: Slip = {
  name: 'digits-swapped',
  summary: 'two neighbouring digits changed places',
  explanation:
    '3.85 for 3.58: the eye reads a number as a whole, and the hand writes two of its digits the other way round. It is the commonest slip of copying, and checking the sum does not find it. Compare every number that was copied digit by digit.',
  formula: null,
  example: exampleNote(
    'pitch: 1 mm',
    'circular scale: 100 divisions',
    'linear scale reading: 3 mm',
    'circular scale reading: 58',
    'observed reading = 3.85 mm',
    '#                  ^^^^^^^ error wrong-value [digits-swapped]',
  ),
  values(data) {
    const value = S.realValue(data.truth.scalar);
    const { place } = data;
    if (value === null || place === null) return [];
    const rounded = R.roundTo(value, place, 'half-even');
    return fieldsOf(data, R.abs(rounded), place).flatMap(field =>
      swaps(field).flatMap(([swapped, first, second]) => {
        const moved = R.multiply(R.rational(swapped - field.digits), field.place);
        const wrong = R.sign(rounded) < 0 ? R.subtract(rounded, moved) : R.add(rounded, moved);
        return gives(
          { ...data.truth, scalar: S.real(wrong) },
          () => `the digits ${first} and ${second} changed places`,
        );
      }),
    );
  },
};

/** A run of digits as it is written: so many of a place. */
interface Field {
  readonly digits: bigint;
  readonly place: R.Rational;
  /** With a nought before the point. */
  readonly width: number;
}

const MOST_DIGITS = 12;
const SIXTY = R.rational(60);
const MINUTE = R.rational(1, 60);
const SECOND = R.multiply(MINUTE, MINUTE);

/** The digits of a decimal; of an angle those of its degrees, minutes and seconds apart, the last with its decimals. */
function fieldsOf(data: SlipData, size: R.Rational, place: R.Rational): readonly Field[] {
  const unit = data.stated.unit;
  const places = unit === null ? R.terminatingPlaces(place) : decimalPlaces(place, unit.factor);
  if (places !== null) {
    return [{ digits: wholePart(R.divide(size, place) ?? R.ZERO), place, width: places + 1 }];
  }
  if (data.truth.dimension.angle !== 1) return [];
  const degrees = R.floor(size);
  const minutes = R.subtract(size, degrees);
  const whole: Field = { digits: wholePart(degrees), place: R.ONE, width: 1 };
  const decimals = decimalPlaces(place, MINUTE);
  if (decimals !== null) return [whole, lastField(minutes, place, decimals)];
  const minute = wholePart(R.multiply(minutes, SIXTY));
  const seconds = R.subtract(minutes, R.multiply(R.rational(minute), MINUTE));
  return [
    whole,
    { digits: minute, place: MINUTE, width: 2 },
    lastField(seconds, place, decimalPlaces(place, SECOND) ?? 0),
  ];
}

/** Minutes or seconds down to the last place: 32.7′ has the digits 327. */
function lastField(part: R.Rational, place: R.Rational, decimals: number): Field {
  return { digits: wholePart(R.divide(part, place) ?? R.ZERO), place, width: 2 + decimals };
}

function decimalPlaces(place: R.Rational, unit: R.Rational): number | null {
  const inUnit = R.divide(place, unit);
  return inUnit && R.terminatingPlaces(inUnit);
}

function wholePart(value: R.Rational): bigint {
  return R.numerator(R.floor(value));
}

/** The number with each pair of neighbouring digits swapped, and the two digits; alike ones make no difference. */
function swaps({ digits: number, width }: Field): readonly (readonly [bigint, string, string])[] {
  const digits = [...number.toString().padStart(width, '0')];
  if (digits.length > MOST_DIGITS) return [];
  return digits.slice(1).flatMap((second, index) => {
    const first = digits[index] ?? second;
    const swapped = BigInt([...digits.slice(0, index), second, first, ...digits.slice(index + 2)].join(''));
    // 50 and 05: there the decimal point slipped, and no digit.
    const onlyShifted = swapped * 10n === number || number * 10n === swapped;
    return first === second || onlyShifted ? [] : [[swapped, first, second] as const];
  });
}
