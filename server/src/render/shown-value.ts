import { toDecimalText } from '../engine/decimal-text.ts';
import * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import { likelyBaseUnits, type Unit, unitShown, unitWord } from '../engine/unit.ts';
import { type NumberOptions, shownNumber } from './shown-number.ts';

export interface ShownOptions extends NumberOptions {
  readonly unit?: Unit | null;
  /** Whether a plus sign is written: zero errors and corrections always have a sign. */
  readonly signed?: boolean;
  /** An angle in degrees, minutes and seconds. */
  readonly sexagesimal?: boolean;
}

/** A value as people write it: `2.484 cm`, `+0.06 mm`, `28° 15′`, `w/(2k)`. Never rounded in binary. */
export function shownValue(quantity: Q.Quantity, options: ShownOptions = {}): string {
  if (options.sexagesimal === true && quantity.dimension.angle === 1) {
    const angle = sexagesimal(quantity);
    if (angle !== null) return options.signed === true && S.sign(quantity.scalar) === 1 ? `+${angle}` : angle;
  }
  const unit = fittingUnit(quantity, options.unit);
  const number = (unit === null ? null : Q.inUnit(quantity, unit)) ?? quantity.scalar;
  const value = S.realValue(number);
  const shown = unit === null ? '' : unitShown(unit);
  if (value === null)
    return withUnit(
      S.scalarText(number),
      unit !== null && S.realValue(S.real(unit.factor)) !== null && !R.equals(unit.factor, R.ONE)
        ? shown
        : '',
    );
  const sign = options.signed === true && R.sign(value) > 0 ? '+' : '';
  return withUnit(sign + shownNumber(value, S.isExact(number), options), shown);
}

function fittingUnit(quantity: Q.Quantity, wanted: Unit | null | undefined): Unit | null {
  if (wanted && Q.inUnit(quantity, wanted) !== null) return wanted;
  if (quantity.unit !== null && Q.inUnit(quantity, quantity.unit) !== null) return quantity.unit;
  const plain = likelyBaseUnits(quantity.dimension);
  return plain.symbol === '' ? null : plain;
}

function withUnit(number: string, unit: string): string {
  if (unit === '') return number;
  return /^[°′″](?![A-Za-z])/.test(unit) ? `${number}${unit}` : `${number} ${unit}`;
}

const ARCMIN = unitWord('arcmin')!;

/** `24° 31′ 20″`; null where the seconds do not come out in at most two decimals. */
function sexagesimal(quantity: Q.Quantity): string | null {
  const minutes = Q.inUnit(quantity, ARCMIN);
  const value = minutes === null ? null : S.realValue(minutes);
  if (value === null) return null;
  const size = R.abs(value);
  const seconds = R.multiply(size, R.rational(60));
  const places = R.terminatingPlaces(seconds);
  if (places === null || places > 2) return null;
  const whole = R.floor(size);
  const degrees = R.floor(R.divide(whole, R.rational(60))!);
  const restMinutes = R.subtract(whole, R.multiply(degrees, R.rational(60)));
  const restSeconds = R.subtract(seconds, R.multiply(whole, R.rational(60)));
  const parts = [
    R.isZero(degrees) ? '' : `${R.toFractionText(degrees)}°`,
    R.isZero(restMinutes) && R.isZero(degrees) !== R.isZero(restSeconds)
      ? ''
      : `${R.toFractionText(restMinutes)}′`,
    R.isZero(restSeconds) ? '' : `${toDecimalText(restSeconds, places)}″`,
  ].filter(part => part !== '');
  return `${R.sign(value) < 0 ? '-' : ''}${parts.join(' ')}`;
}
