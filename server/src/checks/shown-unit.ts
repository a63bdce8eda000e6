import type { Quantity } from '../engine/quantity.ts';
import { likelyBaseUnits, unitShown } from '../engine/unit.ts';

/** The unit that a value is written in. */
export function shownUnit(quantity: Quantity): string {
  return unitShown(quantity.unit ?? likelyBaseUnits(quantity.dimension));
}
