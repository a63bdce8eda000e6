import { unitWord } from '../engine/unit.ts';
import { type Change, changeAtEnd } from './changes.ts';
import { isSymbol } from './names.ts';
import { tokensText } from './statement-dress.ts';
import { joinSpans, type Span, type Token } from './syntax.ts';
import type { DivisionTerm } from './term-names.ts';
import { findTerm, type Term } from './terms.ts';

/** What stands before a statement's colon or equals sign, as far as its own words tell. */
export type LeftSide =
  | { readonly kind: 'term'; readonly term: Term; readonly symbol: string | null }
  /** `10 VSD`, `2k VSD`: a count of divisions. */
  | { readonly kind: 'divisions'; readonly count: readonly Token[]; readonly division: DivisionTerm }
  /** `2A`: a multiple of a quantity of one's own. */
  | { readonly kind: 'multiple'; readonly count: readonly Token[]; readonly name: string }
  | { readonly kind: 'option'; readonly letter: string }
  /** `percentage error of rho`, `observed reading of dish`: more than one name. */
  | { readonly kind: 'reference'; readonly text: string; readonly symbol: string | null }
  /** A quantity of one's own; `words` in small letters, a symbol with its Δ as `Delta m`. */
  | { readonly kind: 'own'; readonly words: string; readonly symbol: string | null }
  | { readonly kind: 'none' };

/**
 * Reads the left side of a statement: a term, a count of divisions, a choice's letter or a name of one's own.
 *
 *     mean corrected reading D      least count (LC)      10 VSD      wall thickness t      option B
 *     ^^^^^^^^^^^^^^^^^^^^^^ ^      ^^^^^^^^^^^^^^^^      ^^ ^^^      ^^^^^^^^^^^^^^ ^      ^^^^^^ ^
 *     term                symbol    one term, twice      count       words          symbol
 */
export function readLeftSide(tokens: readonly Token[]): LeftSide {
  const bare = withoutArticle(tokens);
  const typed = tokensText(bare);
  const text = / in /i.test(typed)
    ? typed.replace(/^(.*(?:error|uncertainty|deviation|mean|average)) in (?=[^ ])/i, '$1 of ')
    : typed;
  if (text === '') return { kind: 'none' };
  const option = /^[oc(]/i.test(text) ? optionLetter(text) : undefined;
  if (option !== undefined) return { kind: 'option', letter: option.toUpperCase() };
  const term = findTerm(text);
  if (term !== null) return { kind: 'term', term, symbol: null };
  const divisions = changeAtEnd(bare) === null ? readDivisions(bare) : null;
  if (divisions !== null) return divisions;
  const [first, second] = bare;
  if (first?.kind === 'number' && second?.kind === 'word' && bare.length === 2 && isSymbol(second.text)) {
    return { kind: 'multiple', count: [first], name: second.text };
  }
  const bracketed = readBracketed(bare);
  if (bracketed !== null) return bracketed;
  return readNamed(bare, text);
}

function optionLetter(text: string): string | undefined {
  return (
    /^(?:option|choice)\s*\(?\s*([A-Za-z]|\d{1,2}|i{2,3}|iv|vi{1,3})\s*\)?$/i.exec(text)?.[1] ??
    /^\(([A-Za-z])\)$/.exec(text)?.[1]
  );
}

function readNamed(tokens: readonly Token[], text: string): LeftSide {
  const last = tokens[tokens.length - 1]!;
  // `reading of P - reading of Q` is a formula of two references.
  if (/ of .* [-+] .* of /.test(text)) return { kind: 'own', words: text.toLowerCase(), symbol: null };
  if (/ of /.test(text) && isReference(text) && !isSymbolled(tokens))
    return { kind: 'reference', text, symbol: null };
  const change = changeAtEnd(tokens);
  if (change !== null) return readChange(tokens.slice(0, -2), change);
  const hasSymbol = last.kind === 'word' && last.spaced && tokens.length > 1 && isSymbol(last.text);
  if (hasSymbol) {
    const before = tokensText(tokens.slice(0, -1));
    const term = findTerm(before);
    // `turn t` names a quantity of one's own, not the turn of a screw.
    const isScaleWord = term?.kind === 'division' || term?.kind === 'scale';
    if (term !== null && !isScaleWord) return { kind: 'term', term, symbol: last.text };
    const name = before.toLowerCase();
    if (!/ (?:of|from|and)$/.test(name)) {
      // `percentage error of rho` ends in a name, not in a symbol for it.
      if (/ of /.test(name) && findTerm(name.slice(0, name.indexOf(' of '))) !== null) {
        return { kind: 'reference', text: before, symbol: last.text };
      }
      return { kind: 'own', words: name, symbol: last.text };
    }
  }
  if (/ of | from /.test(text) && isReference(text)) return { kind: 'reference', text, symbol: null };
  if (tokens.length === 1 && last.kind === 'word' && isSymbol(last.text))
    return { kind: 'own', words: '', symbol: last.text };
  return { kind: 'own', words: text.toLowerCase().replace(/[\s-]+/g, ' '), symbol: null };
}

/** `temperature rise Δ T`, `absolute error Δ rho`: what stands before Δ and its symbol. */
function readChange(before: readonly Token[], { of, name }: Change): LeftSide {
  const words = tokensText(before);
  const term = findTerm(words);
  if (term !== null) return { kind: 'term', term, symbol: term.kind === 'statistic' ? of : name };
  return { kind: 'own', words: words.toLowerCase(), symbol: name };
}

/** Whether the last of several words behind "of" is a symbol for the whole: `mean of T tau`. */
function isSymbolled(tokens: readonly Token[]): boolean {
  const of = tokens.findIndex(token => token.text === 'of' || token.text === 'in');
  const last = tokens[tokens.length - 1];
  return last !== undefined && tokens.length - of > 2 && last.spaced && isSymbol(last.text);
}

/** Whether the words before the first "of" are a term, so that what follows says of what. */
function isReference(text: string): boolean {
  const at = text.indexOf(' of ');
  return at !== -1 && findTerm(text.slice(0, at)) !== null;
}

function readDivisions(tokens: readonly Token[]): LeftSide | null {
  for (let from = tokens.length - 1; from >= 1 && from >= tokens.length - 7; from--) {
    const term = findTerm(tokensText(tokens.slice(from)));
    const typed = tokens.slice(0, from);
    const before =
      typed.at(-1)?.kind === 'operator' && typed.at(-1)?.text === '×' ? typed.slice(0, -1) : typed;
    // Where a sign stands before the division, it is one side of a formula: `S - V`, `1 MSD - 1 VSD`.
    if (tokens[from]!.kind === 'operator' || endsInSign(before)) continue;
    if (term?.kind === 'division' && before.some(token => token.kind === 'number' || token.kind === 'word')) {
      const countable = before.every(
        token => token.kind !== 'word' || isSymbol(token.text) || token.text === 'one',
      );
      const count =
        before[0]?.text === 'one' ? [{ ...before[0], kind: 'number' as const, text: '1' }] : before;
      if (countable) return { kind: 'divisions', count, division: term.name as DivisionTerm };
    }
  }
  return null;
}

/** Whether a count ends in a sign, or in a number behind a plus or minus: `S -`, `1 MSD - 1`. */
function endsInSign(before: readonly Token[]): boolean {
  const isSign = (token: Token | undefined, signs: RegExp): boolean =>
    token?.kind === 'operator' && signs.test(token.text);
  return (
    isSign(before.at(-1), /^[-+/]$/) ||
    (before.at(-1)?.kind !== 'operator' && isSign(before.at(-2), /^[-+]$/))
  );
}

/** `Least count (LC)` says one thing twice; `diameter (D)` names its symbol; `diameter (mm)` its unit. */
function readBracketed(tokens: readonly Token[]): LeftSide | null {
  const open = tokens.findIndex(token => token.kind === 'operator' && token.text === '(');
  const last = tokens[tokens.length - 1]!;
  if (open < 1 || last.text !== ')') return null;
  const inside = tokensText(tokens.slice(open + 1, -1));
  const before = tokens.slice(0, open);
  const outer = readLeftSide(before);
  const same = findTerm(inside);
  if (outer.kind === 'term' && (same === outer.term || unitWord(inside) !== null)) return outer;
  if (outer.kind === 'term' && isSymbol(inside)) return { ...outer, symbol: inside };
  if (outer.kind === 'own' && outer.symbol === null) {
    if (isSymbol(inside) && unitWord(inside) === null) return { ...outer, symbol: inside };
    if (unitWord(inside) !== null) return outer;
  }
  return null;
}

/**
 * `length (L): 1.20 m`: a letter in brackets that may be a unit is a symbol where the value has another unit, or where it
 * is worked out of names only; `diameter (m): 0.12` is measured in it.
 */
export function withBracketedSymbol(
  leftSide: LeftSide,
  left: readonly Token[],
  right: readonly Token[],
): LeftSide {
  const [open, letter, close] = left.slice(-3);
  const isBracketed = open?.text === '(' && close?.text === ')' && letter?.kind === 'word';
  if (!isBracketed || leftSide.kind !== 'own' || leftSide.symbol !== null || !/^[A-Za-z]$/.test(letter.text))
    return leftSide;
  const units = right.filter(
    ({ kind }, index) => right[index - 1]?.kind === 'number' && kind !== 'operator' && kind !== 'number',
  );
  const isMeasured = right.some(({ kind }) => kind === 'number');
  const isSymbolOf = isMeasured
    ? units.length > 0 && units.every(({ text }) => text !== letter.text)
    : right.some(({ kind }) => kind === 'word');
  return isSymbolOf ? { ...leftSide, symbol: letter.text } : leftSide;
}

/**
 * `length of wire, L` is a name and its symbol; the comma between them says no more than a space.
 *
 * Where the symbol is a word of the trade as well, `volume, V`, it stays: text may stand before the term.
 */
export function withoutComma(left: readonly Token[]): readonly Token[] {
  const comma = left[left.length - 2];
  const symbol = left[left.length - 1];
  if (comma?.text !== ',' || symbol?.kind !== 'word' || !isSymbol(symbol.text)) return left;
  const name = left.slice(0, -2);
  const isName = name.length > 0 && name.every(({ kind }) => kind === 'word');
  return isName && findTerm(symbol.text) === null ? [...name, { ...symbol, spaced: true }] : left;
}

function withoutArticle(tokens: readonly Token[]): readonly Token[] {
  const first = tokens[0];
  const article = first?.kind === 'word' && /^(?:the|its)$/i.test(first.text) && tokens.length > 1;
  return article ? tokens.slice(1) : tokens;
}

/** The span of some tokens; null for none. */
export function spanOfTokens(tokens: readonly Token[]): Span | null {
  const first = tokens[0];
  const last = tokens[tokens.length - 1];
  return first && last ? joinSpans(first.span, last.span) : null;
}
