import { toDecimalText } from '../engine/decimal-text.ts';
import * as Q from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import * as S from '../engine/scalar.ts';
import { type Unit, unitShown } from '../engine/unit.ts';
import type { Facts } from './facts.ts';

/** A position on a scale as it is read there: `16 mm`, with all of its places where it ends. */
export function inUnitText(quantity: Q.Quantity, unit: Unit | null): string {
  const value = unit === null ? null : Q.inUnit(quantity, unit);
  const real = value === null ? null : S.realValue(value);
  if (real === null || unit === null) return S.scalarText(quantity.scalar);
  return `${toDecimalText(real, R.terminatingPlaces(real) ?? 4)} ${unitShown(unit)}`;
}

/** Whether a block's readings go round the full circle. */
export function isFullCircle({ measurement }: Facts): boolean {
  return /spectrometer|theodolite/.test(measurement.instrument ?? '');
}

/** An angle read on a full circle comes round again at 360°; where its marks were read below zero it stays there. */
export function onCircle(facts: Facts, quantity: Q.Quantity, isBelow = false): Q.Quantity {
  const value = S.realValue(quantity.scalar);
  if (value === null || isBelow || quantity.dimension.angle !== 1 || !isFullCircle(facts)) return quantity;
  return { ...quantity, scalar: S.real(R.modulo(value, R.rational(360))) };
}
