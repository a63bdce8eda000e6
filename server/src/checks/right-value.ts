import * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import { likelyBaseUnits, type Unit } from '../engine/unit.ts';
import type { Facts } from '../language/facts.ts';
import type { Subject } from '../language/measurement.ts';
import { shownValue } from '../render/shown-value.ts';
import { owner } from './agreement.ts';
import { wantedPlaces } from './judge-places.ts';

/** A right value as it would be written down. */
export interface RightValue {
  /** `2.484 cm`, `24° 31′`, `w/(2k)`: a check of it finds nothing. */
  readonly text: string;
  readonly quantity: Q.Quantity;
  readonly unit: Unit | null;
  /** Whether the text is the value rounded, not the value itself. */
  readonly isRounded: boolean;
}

/**
 * The value of a subject as it would be written down: a reading with the places of its least count, what must be
 * exact with all of its places, the rest with as many as the data carry. Null where the block does not determine it.
 *
 * `unit` is the one to write it in, by default the one that it comes out in; `sexagesimal` writes angles in degrees
 * and minutes.
 */
export function rightValue(
  facts: Facts,
  subject: Subject,
  unit: Unit | null = null,
  sexagesimal = false,
): RightValue | null {
  const value = facts.value(subject);
  if (!value.ok) return null;
  const { quantity } = value;
  const shownIn = fittingUnit(quantity, unit);
  const wanted = wantedPlaces(owner(facts, subject) ?? facts, subject, shownIn, quantity);
  const signed =
    subject.kind === 'term' && (subject.term === 'zero error' || subject.term === 'zero correction');
  const text = shownValue(quantity, {
    unit: shownIn,
    signed,
    sexagesimal,
    ...(wanted?.least == null ? {} : { atLeast: Math.max(0, wanted.least) }),
    ...(wanted?.most == null ? {} : { atMost: Math.max(0, wanted.most) }),
  });
  const places = wanted?.most ?? null;
  return { text, quantity, unit: shownIn, isRounded: !endsWithin(quantity, shownIn, places) };
}

function fittingUnit(quantity: Q.Quantity, wanted: Unit | null): Unit | null {
  if (wanted !== null && Q.inUnit(quantity, wanted) !== null) return wanted;
  if (quantity.unit !== null) return quantity.unit;
  const plain = likelyBaseUnits(quantity.dimension);
  return plain.symbol === '' ? null : plain;
}

/** Whether a value has no more places than are written. */
function endsWithin(quantity: Q.Quantity, unit: Unit | null, places: number | null): boolean {
  const number = unit === null ? quantity.scalar : (Q.inUnit(quantity, unit) ?? quantity.scalar);
  const real = S.realValue(number);
  if (real === null) return true;
  if (!S.isExact(number)) return false;
  const needed = R.terminatingPlaces(real);
  return needed !== null && needed <= Math.max(0, places ?? MOST_PLACES);
}

/** A value without any limit is written with so many places at most. */
const MOST_PLACES = 6;
