import type { Quantity } from '../engine/quantity.ts';
import { likelyBaseUnits, unitShown } from '../engine/unit.ts';

/** The unit that a value is written in. */
export function shownUnit(quantity: Quantity): string {
  return unitShown(quantity.unit ?? likelyBaseUnits(quantity.dimension));
}

/** A unit as it stands behind its number: ` cm`, but `°` without a space. */
export function behindNumber(unit: string): string {
  return /^[°′″](?![A-Za-z])/.test(unit) ? unit : ` ${unit}`;
}
