import { isSymbol } from './names.ts';
import type { Token } from './syntax.ts';

/** What Δ stands before: `Delta m`, `δ m`. */
export interface Change {
  readonly sign: string;
  readonly of: string;
  /** One spelling for all: `Delta m`. */
  readonly name: string;
}

/** Reads `Delta m`, `delta m` or `Δm`: a change of m, or its error where m has a name by itself; null for anything else. */
export function changeOf(text: string): Change | null {
  const match = /^([Dd]elta) ?(\S+)$/.exec(text);
  const sign = match?.[1];
  const of = match?.[2];
  return sign === undefined || of === undefined || !isSymbol(of) ? null : { sign, of, name: `Delta ${of}` };
}

/** The change that a left side ends in: `temperature rise Δ T`; null where it ends in none. */
export function changeAtEnd(tokens: readonly Token[]): Change | null {
  const [sign, of] = tokens.slice(-2);
  if (sign?.kind !== 'word' || of?.kind !== 'word') return null;
  return changeOf(`${sign.text} ${of.text}`);
}
