import { agrees, comparable, type StatedValue } from '../checks/agreement.ts';
import { type RightValue, rightValue } from '../checks/right-value.ts';
import { slipValues } from '../checks/slip-search.ts';
import * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import type { Unit } from '../engine/unit.ts';
import type { Facts } from '../language/facts.ts';
import type { Subject } from '../language/measurement.ts';
import { shownValue } from '../render/shown-value.ts';

/** A choice of a question: as it is written, and what that says. */
export interface ChoiceValue {
  readonly text: string;
  readonly quantity: Q.Quantity;
}

export interface ChoiceValues {
  readonly right: ChoiceValue;
  /** What the known slips give, the likeliest first; no two of them alike, and none like the right one. */
  readonly wrong: readonly ChoiceValue[];
}

/**
 * The right value of what a question asks, and the wrong ones that students get who slip, all written in one unit
 * and to the same places; null where the block does not determine it.
 *
 * What comes out exactly at those places goes before what has to be rounded to them. A size is never given a wrong sign,
 * which nobody would choose; a zero error may have one.
 */
export function choiceValues(
  facts: Facts,
  subject: Subject,
  unit: Unit | null,
  sexagesimal: boolean,
  taken: readonly ChoiceValue[],
): ChoiceValues | null {
  const right = rightValue(facts, subject, unit, sexagesimal);
  if (right === null) return null;
  const style = styleOf(right, sexagesimal);
  const wrong: ChoiceValue[] = [];
  const offered = slipValues(facts, subject, { quantity: shownIn(right), place: style.place });
  for (const exactly of [true, false]) {
    for (const value of offered) {
      const choice = written(value, style, signIsWritten(subject), exactly);
      if (choice === null || isOdd(choice, right, subject)) continue;
      const place = style.sexagesimal === null ? style.place : lastPlace(choice.text);
      if (agrees(facts, subject, right.quantity, { quantity: choice.quantity, place })) continue;
      if ([...taken, ...wrong].some(other => alike(other, choice))) continue;
      wrong.push(choice);
    }
  }
  return { right: { text: right.text, quantity: right.quantity }, wrong };
}

/** How the right value is written: its decimal places, or degrees and minutes, or as a formula. */
interface Style {
  readonly unit: Unit | null;
  readonly places: number | null;
  /** With a power of ten, which the places take in: `9.8 × 10^7` has -6. */
  readonly tenfold: boolean;
  readonly sexagesimal: 'minutes' | 'seconds' | null;
  /** One in the last place, in the unit of the dimension. */
  readonly place: StatedValue['place'];
}

function styleOf({ text, unit, quantity }: RightValue, sexagesimal: boolean): Style {
  if (sexagesimal && /[°′″]$/.test(text) && !text.includes('.'))
    return {
      unit,
      places: null,
      tenfold: false,
      sexagesimal: text.endsWith('″') ? 'seconds' : 'minutes',
      place: lastPlace(text),
    };
  const decimal = /^[+-]?\d+(?:\.(\d+))?(?: × 10\^(-?\d+))?(?![\d.])(?!e)/.exec(text);
  if (decimal === null || S.realValue(quantity.scalar) === null)
    return { unit, places: null, tenfold: false, sexagesimal: null, place: null };
  const tenfold = decimal[2] !== undefined;
  const places = (decimal[1]?.length ?? 0) - Number(decimal[2] ?? 0);
  const one = R.powerInteger(R.TEN, -places)!;
  return {
    unit,
    places,
    tenfold,
    sexagesimal: null,
    place: unit === null ? one : R.multiply(one, unit.factor),
  };
}

/** One in the last place of an angle in degrees, minutes and seconds: 5° says nothing about minutes. */
function lastPlace(text: string): R.Rational {
  return R.rational(1, text.endsWith('″') ? 3600 : text.endsWith('′') ? 60 : 1);
}

function shownIn({ quantity, unit }: RightValue): Q.Quantity {
  return unit === null ? quantity : Q.withUnit(quantity, unit);
}

function signIsWritten(subject: Subject): boolean {
  return subject.kind === 'term' && (subject.term === 'zero error' || subject.term === 'zero correction');
}

/** A value in the style of the right one; null where it cannot be written so, or only rounded where `exactly`. */
function written(value: Q.Quantity, style: Style, signed: boolean, exactly: boolean): ChoiceValue | null {
  const { unit, places, tenfold } = style;
  const number = unit === null ? value.scalar : Q.inUnit(value, unit);
  if (number === null) return null;
  const real = S.realValue(number);
  if (places === null) {
    const text = shownValue(value, { unit, signed, sexagesimal: style.sexagesimal !== null });
    const fits =
      style.sexagesimal === null
        ? real === null
        : /[°′″]$/.test(text) &&
          !text.includes('.') &&
          (style.sexagesimal === 'seconds' || !text.includes('″'));
    return exactly && fits ? { text, quantity: value } : null;
  }
  if (real === null) return null;
  const rounded = R.roundTo(real, R.powerInteger(R.TEN, -places)!, 'half-even');
  if (exactly !== R.equals(rounded, real) || R.isZero(rounded)) return null;
  const quantity = unit === null ? { ...value, scalar: S.real(rounded) } : Q.quantity(rounded, unit);
  return { text: shownValue(quantity, { unit, atLeast: places, atMost: places, tenfold, signed }), quantity };
}

/** A negative size, or one so long that its digits give it away. */
function isOdd({ quantity, text }: ChoiceValue, right: RightValue, subject: Subject): boolean {
  if (right.text.length + MOST_LONGER < text.length) return true;
  if (signIsWritten(subject)) return false;
  const sign = S.sign(quantity.scalar);
  const other = S.sign(right.quantity.scalar);
  return sign !== undefined && other !== undefined && sign < 0 && 0 <= other;
}

const MOST_LONGER = 4;

/** Whether two choices say the same, or are written alike. */
export function alike(a: ChoiceValue, b: ChoiceValue): boolean {
  if (a.text.replace(/\s/g, '') === b.text.replace(/\s/g, '')) return true;
  const pair = comparable(a.quantity, b.quantity);
  return pair !== null && S.equals(pair.truth.scalar, pair.stated.scalar);
}
