/** Whether all words are words of the trade, so that together they look like a term. */
export function isMadeOfTradeWords(words: readonly string[]): boolean {
  return words.every(word => TRADE_WORDS.has(word));
}

/** Whether the head of a column looks like a term of a reading: several words, `final reading`, `MS reading`. */
export function isTradeName(name: string): boolean {
  const words = name.split(/[ .-]+/).filter(word => word !== '');
  return words.length > 1 && words.every(word => TRADE_WORDS.has(word) || SCALE_LETTERS.test(word));
}

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
