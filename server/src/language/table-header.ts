import { unitWord } from '../engine/unit.ts';
import { readLeftSide } from './left-side.ts';
import type { Token } from './syntax.ts';
import type { Cell } from './table-line.ts';
import type { Term } from './terms.ts';

/** What a column of a table holds. */
export type Column =
  | { readonly kind: 'label' }
  /** `#`, `No.`, `S.No.`: counts the rows. */
  | { readonly kind: 'counter' }
  | { readonly kind: 'term'; readonly term: Term; readonly unit: readonly Token[] }
  | { readonly kind: 'own'; readonly name: string; readonly words: string; readonly unit: readonly Token[] }
  | { readonly kind: 'unknown'; readonly text: string };

/** Reads the head of a column: a term or an own quantity, with a unit in brackets where it has one: `LSR (mm)`, `T / s`. */
export function columnName(cell: Cell): Column {
  if (
    /^(?:#|no\.?|s\.?\s?no\.?|sl\.?\s?no\.?|sr\.?\s?no\.?|obs\.?\s?no\.?|trial|row|n[o°]\.?)$/i.test(
      cell.text,
    )
  )
    return { kind: 'counter' };
  const { name, unit } = splitUnit(cell.tokens);
  const left = readLeftSide(name);
  if (left.kind === 'term') {
    if (left.term.name === 'label') return { kind: 'label' };
    return { kind: 'term', term: left.term, unit };
  }
  if (left.kind === 'own') {
    const ownName = left.symbol ?? left.words;
    if (ownName !== '')
      return { kind: 'own', name: ownName, words: left.symbol === null ? '' : left.words, unit };
  }
  return { kind: 'unknown', text: cell.text };
}

function splitUnit(tokens: readonly Token[]): { name: readonly Token[]; unit: readonly Token[] } {
  const open = tokens.findIndex(
    token => token.kind === 'operator' && (token.text === '(' || token.text === '['),
  );
  const last = tokens[tokens.length - 1];
  if (open > 0 && last !== undefined && (last.text === ')' || last.text === ']')) {
    const inside = tokens.slice(open + 1, -1);
    const first = inside[0];
    const isUnit =
      first !== undefined &&
      (first.kind === 'degree' ||
        first.kind === 'prime' ||
        first.kind === 'percent' ||
        (first.kind === 'word' && unitWord(first.text) !== null));
    if (isUnit) return { name: tokens.slice(0, open), unit: inside };
  }
  const slash = tokens.findIndex(
    token => token.kind === 'operator' && (token.text === '/' || token.text === ','),
  );
  const after = tokens[slash + 1];
  if (slash > 0 && after?.kind === 'word' && unitWord(after.text) !== null) {
    return { name: tokens.slice(0, slash), unit: tokens.slice(slash + 1) };
  }
  return { name: tokens, unit: [] };
}
