/** Counts the columns that a text without control characters takes in a terminal. */
export type DisplayWidth = (text: string) => number;

/**
 * Signs that take one column each and join with nothing: Latin, Greek, Cyrillic, punctuation,
 * superscripts, letter-like signs, arrows, mathematics, box drawing.
 */
const ONE_COLUMN_EACH =
  /^[\t\r\n\u0020-\u007e\u00a0-\u00ac\u00ae-\u02ff\u0370-\u0482\u2010-\u2027\u2030-\u205e\u2070-\u209c\u2100-\u22ff\u2500-\u257f]*$/;

/** The way to count for a note; the tables of all the scripts are loaded only where a note needs them, for they cost time. */
export async function displayWidthFor(note: string): Promise<DisplayWidth> {
  if (ONE_COLUMN_EACH.test(note)) return text => text.length;
  const { default: stringWidth } = await import('string-width');
  return stringWidth;
}

/** The pieces of a text that the eye sees as one sign each. */
export function* graphemes(text: string): Iterable<string> {
  if (ONE_COLUMN_EACH.test(text)) yield* text;
  else for (const { segment } of new Intl.Segmenter().segment(text)) yield segment;
}
