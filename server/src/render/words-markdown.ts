import { symbolInWords } from './name-latex.ts';

/** Plain words in Markdown: symbols among them as math, and whatever Markdown would take for its own put as it is. */
export function wordsMarkdown(words: string): string {
  const pieces = words.split(' ');
  return (
    pieces
      .map((piece, at) => pieceMarkdown(piece, pieces[at - 1] ?? ''))
      .join(' ')
      // Symbols with a sign between them are one formula.
      .replace(/(?<!\\)\$ ([-+=]) \$/g, ' $1 ')
      .replace(/(?<!\\)\$ × \$/g, ' \\times ')
  );
}

/** The same for a heading, where a last letter is a symbol, whichever it is: `Angle $A$`. */
export function titleMarkdown(words: string): string {
  const last = / ([A-Ea])$/.exec(words)?.[1];
  return last === undefined ? wordsMarkdown(words) : `${wordsMarkdown(words.slice(0, -2))} $${last}$`;
}

/** The same for a paragraph, which must not begin like a list, a rule or the line under a heading. */
export function paragraphMarkdown(words: string): string {
  return wordsMarkdown(words)
    .replace(/^(?=[-+=:])/, '\\')
    .replace(/^(\d+)(?=[.)])/, '$1\\');
}

const PIECE = /^([Δ\p{L}][\p{L}\p{M}\d_₀-₉]*)([).,;:?!]*)$/u;
/** A choice is called by these, a sentence begins with one of them, and a is an article. */
const NO_SYMBOL = /^[aA-EI]$/;

function pieceMarkdown(piece: string, before: string): string {
  const [, word = '', closing = ''] = PIECE.exec(piece) ?? [];
  // Behind a number stands its unit.
  const mayBeSymbol = word !== '' && !NO_SYMBOL.test(word) && !/\d$/.test(before);
  const latex = mayBeSymbol ? symbolInWords(word) : null;
  return latex === null ? plainMarkdown(piece) : `$${latex}$${plainMarkdown(closing)}`;
}

/** Words that stand for themselves, letters too. */
export function plainMarkdown(text: string): string {
  return text.replace(/[\\`*_[\]<>$|~&#]/g, '\\$&');
}
