import { evaluate, visit } from '../evaluation.ts';
import type { Quantity } from '../quantity.ts';
import type { SlipData } from './slip.ts';
import type { Maybe } from './sums.ts';

/** A name in the formula of one's own quantity, with its value. */
export interface FormulaName {
  readonly key: string;
  readonly label: string;
  readonly value: Quantity;
}

/** More names than this are not tried out. */
const MOST_NAMES = 4;

/** The names in the formula, each once, in their order; none where there is no formula. */
export function formulaNames(data: SlipData): readonly FormulaName[] {
  const names = new Map<string, FormulaName>();
  if (data.formula === null) return [];
  visit(data.formula, part => {
    if (part.kind !== 'name' || names.has(part.key) || names.size >= MOST_NAMES) return;
    const outcome = data.lookup(part.key);
    if (outcome.ok) names.set(part.key, { key: part.key, label: labelOf(part), value: outcome.quantity });
  });
  return [...names.values()];
}

/** The formula worked out with another value in the place of one name. */
export function formulaWith(data: SlipData, name: FormulaName, value: Maybe): Maybe {
  if (data.formula === null || value === null) return null;
  const outcome = evaluate(data.formula, key =>
    key === name.key ? { ok: true, quantity: value } : data.lookup(key),
  );
  return outcome.ok ? outcome.quantity : null;
}

/** A number that was put in for a value goes by the value's name. */
function labelOf({ key, text }: { readonly key: string; readonly text: string }): string {
  return /^\p{L}/u.test(text) ? text : key.replace(/^\[.*?\] /, '').replace(/^own /, '');
}
