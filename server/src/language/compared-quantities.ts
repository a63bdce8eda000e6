import type { Draft } from './draft.ts';
import { isSign } from './parser.ts';
import { tokensText } from './statement-dress.ts';
import type { Token } from './syntax.ts';

/** A quantity that a formula compares with another one. */
export interface Compared {
  readonly name: string;
  /** What it is held against. */
  readonly from: string;
}

/**
 * The two quantities of the block that `|24.0 - 23.4|/24.0` compares, by their names or by the numbers that were recorded
 * for them; null for any other formula, and where a number may be one of several.
 *
 * What stands below may be an accepted value that the block does not record: `|9.81 - 9.79|/9.81` beside g.
 */
export function comparedQuantities(draft: Draft, tokens: readonly Token[]): Compared | null {
  const end = tokens.findIndex(token => isSign(token, '=') || isSign(token, '≈'));
  const text = tokensText(end === -1 ? tokens : tokens.slice(0, end));
  if (!/[|)]/.test(text)) return null;
  const plain = text
    .replace(/[|()]|\babs\b|×? ?\b100 ?%?$/g, ' ')
    .replace(/\s+/g, ' ')
    .trim();
  const match = /^(.+?) - (.+?) ?[/÷] ?(.+?)(?: ?×)?$/.exec(plain);
  const parts = (match?.slice(1) ?? []).map(part => part.trim());
  const [left, right, below] = parts.map(part => recordedName(draft, part));
  if (below == null) return comparedWithAccepted(draft, parts);
  if (left == null || right == null || left === right) return null;
  if (below === right) return { name: left, from: right };
  return below === left ? { name: right, from: left } : null;
}

function comparedWithAccepted(draft: Draft, parts: readonly string[]): Compared | null {
  const [left, right, below] = parts;
  const compared = below === left ? right : below === right ? left : undefined;
  const name = compared === undefined ? null : recordedName(draft, compared);
  if (name === null || below === undefined || !/^\d[\d.]*$/.test(below)) return null;
  const unit = /^\d[\d.]*(?: ?([^\d\\$ ][^\\$×±]*))?$/.exec(textsByName(draft).get(name) ?? '');
  return unit === null ? null : { name, from: `${below} ${unit[1] ?? ''}`.trim() };
}

/** The quantity of the block that a name or a number stands for; null for none, and for more than one. */
function recordedName(draft: Draft, text: string): string | null {
  const values = valuesByName(draft);
  if (values.has(text)) return text;
  const number = numberOf(text);
  const alike = number === null ? [] : [...values].filter(([, value]) => value === number);
  return alike.length === 1 ? alike[0]![0] : null;
}

/** The numbers that were typed for the quantities of the block so far, recorded or worked out; null for what has none. */
function valuesByName(draft: Draft): ReadonlyMap<string, string | null> {
  return new Map(
    [...textsByName(draft)].map(([name, text]) => [name, text === null ? null : numberOf(text)]),
  );
}

function textsByName({ own, claims }: Draft): ReadonlyMap<string, string | null> {
  const values = new Map<string, string | null>();
  for (const [name, record] of own)
    values.set(name, record.kind === 'value' ? record.given.stated.text : null);
  for (const { subject, links } of claims) {
    const last = links.at(-1)?.content;
    if (subject.kind === 'own' && subject.row === null && subject.block === null)
      values.set(subject.name, last?.kind === 'stated' ? last.stated.text : null);
  }
  return values;
}

function numberOf(text: string): string | null {
  return /^\d[\d.]*/.exec(text)?.[0] ?? null;
}
