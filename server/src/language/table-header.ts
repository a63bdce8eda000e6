import { type HeadParts, headParts, meaningOf } from './head-formula.ts';
import { splitUnit } from './head-unit.ts';
import { readLeftSide } from './left-side.ts';
import { tokensText } from './statement-dress.ts';
import type { Token } from './syntax.ts';
import type { Cell } from './table-line.ts';
import { type Term, termNamed } from './terms.ts';
import { isTradeName, termAmong, termOrSymbol, tradeWords } from './trade-words.ts';

/** What a column of a table holds. */
export type Column =
  | { readonly kind: 'label' }
  /** `#`, `No.`, `S.No.`: counts the rows. */
  | { readonly kind: 'counter' }
  | {
      readonly kind: 'term';
      readonly term: Term;
      readonly unit: readonly Token[];
      /** What names the term's value besides: `R = LSR + CSR × LC`. */
      readonly symbol: string | null;
    }
  /** `CSR × LC`: so many divisions of the circular scale as a length. */
  | { readonly kind: 'circular part'; readonly unit: readonly Token[] }
  | { readonly kind: 'own'; readonly name: string; readonly words: string; readonly unit: readonly Token[] }
  /** No term and no name; `why` says more where there is more to say, `offers` what may be meant. */
  | {
      readonly kind: 'unknown';
      readonly text: string;
      readonly why: string | null;
      readonly offers: readonly string[];
    };

/**
 * Reads the head of a column: a term, an own quantity or a formula of the trade, with a unit in brackets where it has
 * one: `LSR (mm)`, `T / s`, `CSR (div)`, `LSR + CSR × LC (mm)`.
 *
 * A letter that the block has for a quantity of its own, as V for a voltage, is no abbreviation of a term.
 */
export function columnName(
  cell: Cell,
  own: { readonly has: (letter: string) => boolean } = NO_LETTERS,
): Column {
  if (
    /^(?:#|no\.?|s\.?\s?no\.?|sl\.?\s?no\.?|sr\.?\s?no\.?|obs\.?\s?no\.?|trial|row|n[o°]\.?)$/i.test(
      cell.text,
    )
  )
    return { kind: 'counter' };
  const { name, unit, counts } = splitUnit(cell.tokens);
  const parts = headParts(name);
  if (parts !== null) return formulaColumn(cell, parts, unit);
  const left = readLeftSide(name);
  if (left.kind === 'term') {
    const letter = name.length === 1 ? name[0]!.text : '';
    if (letter.length === 1 && own.has(letter)) return { kind: 'own', name: letter, words: '', unit };
    if (left.term.name === 'label') return { kind: 'label' };
    if (counts.length > 0) return countedColumn(cell, left.term, counts);
    return { kind: 'term', term: left.term, unit, symbol: null };
  }
  if (left.kind === 'own') {
    const ownName = left.symbol ?? left.words;
    const isTotal = left.words === '' && /^TR$/i.test(ownName.replaceAll('.', ''));
    if (isTotal || (left.symbol === null && /^t\. ?r\.?$/i.test(left.words)))
      return unknown(
        cell,
        `${tokensText(name)} may be the total reading, which is the observed one, or the true reading, which is the corrected one; write which`,
        ['observed reading', 'corrected reading'].map(term => withUnit(term, cell, name)),
      );
    const trade = tradeWords(left.words, left.symbol);
    if (isTradeName(trade))
      return unknown(
        cell,
        `${tokensText(name)} is made of words of the trade, but it is no term; ${termOrSymbol(trade)}`,
        offersFor(trade).map(term => withUnit(term, cell, name)),
      );
    if (ownName !== '')
      return { kind: 'own', name: ownName, words: left.symbol === null ? '' : left.words, unit };
  }
  return unknown(cell, null);
}

function offersFor(words: readonly string[]): readonly string[] {
  if (words.join(' ') === 'final reading') return ['observed reading', 'corrected reading'];
  const term = termAmong(words);
  return term === null ? [] : [term];
}

const NO_LETTERS: ReadonlySet<string> = new Set();

function unknown(cell: Cell, why: string | null, offers: readonly string[] = []): Column {
  return { kind: 'unknown', text: cell.text, why, offers };
}

/** Another name before the unit as it stands; a bracket that is closed behind what it takes the place of goes with it. */
function withUnit(term: string, cell: Cell, name: readonly Token[]): string {
  const rest = cell.text.slice(name[name.length - 1]!.span.end - cell.span.start);
  return term + rest.replace(/^\s*[)\]]/, '');
}

/** A head with a formula: what the trade works out so; any other is no name of a column. */
function formulaColumn(cell: Cell, { name, formula }: HeadParts, unit: readonly Token[]): Column {
  const meaning = meaningOf(formula);
  const left = readLeftSide(name);
  const isNamed = left.kind === 'term' ? left.term.name === meaning : left.kind === 'own';
  if (meaning === null || !(isNamed || left.kind === 'none')) return unreadFormula(cell, name, formula);
  if (meaning === 'circular part') return { kind: 'circular part', unit };
  const symbol = left.kind === 'own' || left.kind === 'term' ? left.symbol : null;
  return { kind: 'term', term: termNamed(meaning), unit, symbol };
}

function unreadFormula(cell: Cell, name: readonly Token[], formula: readonly Token[]): Column {
  const [base, raised] = formula;
  const isPower =
    formula.length <= 3 && base?.kind === 'word' && (raised?.kind === 'superscript' || raised?.text === '^');
  if (isPower && name.length === 0) {
    const power = `${base.text}^${formula[formula.length - 1]!.text}`;
    return unknown(
      cell,
      `${cell.text} is worked out of ${base.text} and heads no column; a formula may say ${power} wherever it is needed, so leave the column out, or give it a name with a symbol, such as square q`,
    );
  }
  const typed = tokensText(name);
  return unknown(
    cell,
    `${cell.text} is a formula, which heads no column; write what the column holds, such as observed reading (mm), or for a quantity of your own a name with a symbol, such as area A (mm^2)`,
    readLeftSide(name).kind === 'own' && formula.length > 0 ? [withUnit(typed, cell, formula)] : [],
  );
}

/** `CSR (div)`, `LSR (divisions)`: what is counted; a computed term is no count. */
function countedColumn(cell: Cell, term: Term, counts: readonly Token[]): Column {
  if (term.kind !== 'observable')
    return unknown(cell, `the ${term.name} is no count of divisions; write the unit that it is measured in`);
  const isMark = term.name === 'main scale reading' || term.name === 'linear scale reading';
  if (!isMark) return { kind: 'term', term, unit: [], symbol: null };
  return /^n/i.test(counts[0]!.text)
    ? unknown(cell, `the ${term.name} is a length or a count of divisions; write its unit, or (divisions)`)
    : { kind: 'term', term, unit: counts, symbol: null };
}
