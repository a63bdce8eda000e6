import { findTerm } from './terms.ts';

/** Whether all words are words of the trade, so that together they look like a term. */
export function isMadeOfTradeWords(words: readonly string[]): boolean {
  return words.length > 0 && (words.every(isTradeWord) || isPlacedTerm(words));
}

/** Whether the head of a column looks like a term of a reading: several words, `final reading`, `MS reading`. */
export function isTradeName(words: readonly string[]): boolean {
  return (
    words.length > 1 &&
    (words.every(word => isTradeWord(word) || SCALE_LETTERS.test(word)) || isPlacedTerm(words))
  );
}

/** The term that stands in a name of such words and is likely meant: MSR in `left MSR`; null for none. */
export function termAmong(words: readonly string[]): string | null {
  for (let length = words.length - 1; length > 0; length--) {
    for (let from = 0; from + length <= words.length; from++) {
      const part = words.slice(from, from + length).join(' ');
      const term = findTerm(part);
      const isRead = term?.kind === 'observable' || term?.kind === 'computed';
      if (isRead && (length > 1 || ABBREVIATIONS.has(part))) return term.name;
    }
  }
  return null;
}

/** The words of a name that may be of the trade; the VC of `left VC` is one of them, and no symbol. None for a name with a symbol. */
export function tradeWords(words: string, symbol: string | null): readonly string[] {
  const isWord = symbol !== null && ABBREVIATIONS.has(symbol.toLowerCase());
  if (symbol !== null && !isWord) return [];
  return [words, symbol ?? '']
    .join(' ')
    .toLowerCase()
    .split(/[ .-]+/)
    .filter(word => word !== '');
}

/** What to write instead of a name of such words. */
export function termOrSymbol(words: readonly string[]): string {
  const term = termAmong(words);
  return term === null
    ? 'write the term that is meant, or give the quantity a symbol'
    : `write the term that is meant (${term}, of several a row each in a table with a column label), or give the quantity a symbol`;
}

function isTradeWord(word: string): boolean {
  return TRADE_WORDS.has(word) || ABBREVIATIONS.has(word);
}

/** `left MSR`, `second reading`: one of several, which belong into the rows of a table. */
function isPlacedTerm([place, ...rest]: readonly string[]): boolean {
  const term = PLACES.test(place ?? '') ? findTerm(rest.join(' ')) : null;
  return (
    term?.kind === 'observable' || term?.name === 'observed reading' || term?.name === 'corrected reading'
  );
}

const PLACES = /^(?:left|right|upper|lower|top|bottom|inner|outer|first|second|third)$/;

const ABBREVIATIONS = new Set('msr vsr vc lsr psr csr hsr msd vsd lsd psd csd hsd lc ze zc'.split(' '));

/** The first letters of a scale: `VS reading`, `C.S. reading`. */
const SCALE_LETTERS = /^(?:[mvclphb]|[mvclphb]s|net)$/;

const TRADE_WORDS = new Set([
  'main',
  'vernier',
  'scale',
  'scales',
  'division',
  'divisions',
  'reading',
  'readings',
  'coinciding',
  'coincidence',
  'linear',
  'circular',
  'head',
  'pitch',
  'least',
  'count',
  'zero',
  'error',
  'correction',
  'observed',
  'corrected',
  'mean',
  'total',
  'final',
  'constant',
  'screw',
  'sleeve',
  'thimble',
  'barrel',
  'true',
  'line',
  'mark',
]);
