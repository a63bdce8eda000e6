import { numbersLatex } from './number-latex.ts';
import { greekLatex, wordsLatex } from './words-latex.ts';

/**
 * A name in a formula: symbols slanted with their subscripts (`t_{1}`, `\rho`), abbreviations and words upright
 * (`\text{MSR}`, `\text{observed reading}`), and the error of either behind a Δ,
 * its uncertainty in `u( )`.
 */
export function nameLatex(text: string): string {
  const trimmed = text.trim();
  const change = /^[Δ∆](?:\((.+)\)|(?=\p{L})(.+))$/su.exec(trimmed);
  if (change?.[1] !== undefined) return `\\Delta(${plainName(change[1])})`;
  const uncertainty = /^([uU])\((.+)\)$/su.exec(trimmed);
  if (uncertainty !== null) return `${uncertainty[1]}(${plainName(uncertainty[2] ?? '')})`;
  return change?.[2] !== undefined ? `\\Delta ${plainName(change[2])}` : plainName(trimmed);
}

function plainName(text: string): string {
  const symbol = symbolLatex(text);
  if (symbol !== null) return symbol;
  const accepted = /^(.+) from ([-+]?\d.*)$/su.exec(text);
  const value = numbersLatex(accepted?.[2] ?? '');
  if (accepted?.[1] !== undefined && value !== null) return `${wordedName(`${accepted[1]} from `)}${value}`;
  return wordedName(text);
}

/** Words, with the symbols that `of` joins to them: `\text{mean of }T`. */
function wordedName(text: string): string {
  const words = text.split(/\s+/);
  let latex = '';
  let upright = '';
  for (const [at, word] of words.entries()) {
    const gap = at === 0 ? '' : ' ';
    const slanted = words[at - 1] === 'of' || words[at + 1] === 'of' ? shortSymbol(word) : null;
    if (slanted === null) upright += gap + word;
    else {
      latex += wordsBeside(upright + gap) + slanted;
      upright = '';
    }
  }
  return latex + wordsBeside(upright);
}

/** A name that is one symbol and no word, as the n in a sentence; null for anything else. */
export function symbolInWords(word: string): string | null {
  const change = /^[Δ∆](.+)$/su.exec(word);
  const symbol = shortSymbol(change?.[1] ?? word);
  return symbol === null || change === null ? symbol : `\\Delta ${symbol}`;
}

function wordsBeside(words: string): string {
  return words === '' ? '' : wordsLatex(words);
}

/** One letter or a Greek one, with what stands below it: the T of `mean of T`, but not the dish of `reading of dish`. */
function shortSymbol(word: string): string | null {
  return /^(?:\p{L}\p{M}*|[A-Za-z]+)(?:\d|_|[₀-₉]|$)/u.test(word) && !/^[A-Za-z]{2,}$/.test(word)
    ? symbolLatex(word)
    : greekLatex(word);
}

const SUBSCRIPTS = '₀₁₂₃₄₅₆₇₈₉';
const SYMBOL = /^(\p{L}[\p{L}\p{M}]*)([\d₀-₉]*)((?:_[\p{L}\p{M}\d]+)*)$/u;

/** Null for what is no symbol but words. */
function symbolLatex(text: string): string | null {
  const parts = SYMBOL.exec(text);
  if (parts === null) return null;
  const [, letters = '', digits = '', rest = ''] = parts;
  const base = lettersLatex(letters);
  if (base === null) return null;
  const below = [digits, ...rest.split('_')].filter(part => part !== '').map(subscriptLatex);
  return below.length === 0 ? base : `${base}_{${below.join(',')}}`;
}

/** One or two letters, or a Greek one; what is longer is a word. */
function lettersLatex(letters: string): string | null {
  const greek = greekLatex(letters);
  if (greek !== null) return greek;
  const isAscii = /^[A-Za-z]+$/.test(letters);
  const length = [...letters.normalize('NFC')].length;
  if (length === 1) return isAscii ? letters : wordsLatex(letters);
  // An abbreviation of the trade, LC, or a symbol of two letters, Tm.
  if (length === 2)
    return isAscii && !/^[A-Z]{2}$/.test(letters) ? `\\mathit{${letters}}` : wordsLatex(letters);
  return null;
}

function subscriptLatex(text: string): string {
  const plain = text.replace(/[₀-₉]/g, digit => String(SUBSCRIPTS.indexOf(digit)));
  if (/^\d+$/.test(plain) || /^[A-Za-z]$/.test(plain)) return plain;
  return greekLatex(plain) ?? wordsLatex(plain);
}
