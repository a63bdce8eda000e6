/**
 * Words inside a formula, upright: `\text{observed reading}`.
 *
 * Whatever a note may hold compiles: signs that LaTeX reads as its own are escaped, those of mathematics stand between
 * the words, and letters that no math font has become a question mark.
 */
export function wordsLatex(text: string): string {
  let latex = '';
  let words = '';
  const endWords = () => {
    if (words !== '') latex += `\\text{${words}}`;
    words = '';
  };
  for (const character of text.normalize('NFC').replace(/\s+/gu, ' ')) {
    const sign = SIGNS.get(character) ?? greekLatex(character);
    if (sign === null) words += textCharacter(character);
    else {
      endWords();
      latex += sign.startsWith('\\') ? `${sign} ` : sign;
    }
  }
  endWords();
  return latex.trimEnd();
}

/** The command of a Greek letter, by its name or the letter itself; null for anything else. */
export function greekLatex(word: string): string | null {
  const name = word < '\u0080' ? word : GREEK_LETTERS.get(word);
  return name !== undefined && GREEK_NAMES.has(name) ? `\\${name}` : null;
}

const NAMES =
  'alpha beta gamma delta epsilon zeta eta theta iota kappa lambda mu nu xi omicron pi rho sigma tau upsilon phi chi psi omega';
const GREEK_NAMES: ReadonlySet<string> = new Set(
  NAMES.split(' ').flatMap(name => [name, name[0]!.toUpperCase() + name.slice(1)]),
);

const GREEK_LETTERS: ReadonlyMap<string, string> = new Map([
  ...NAMES.split(' ').flatMap((name, index): [string, string][] => {
    // Between rho and sigma stands the final sigma.
    const step = index < 17 ? index : index + 1;
    const capital = name[0]!.toUpperCase() + name.slice(1);
    return [
      [String.fromCodePoint(0x3b1 + step), name],
      [String.fromCodePoint(0x391 + step), capital],
    ];
  }),
  ['µ', 'mu'],
  ['ϵ', 'epsilon'],
  ['ϑ', 'theta'],
  ['ϕ', 'phi'],
  ['ϱ', 'rho'],
  ['ς', 'sigma'],
  ['∆', 'Delta'],
  ['\u2126', 'Omega'],
]);

const SIGNS: ReadonlyMap<string, string> = new Map([
  ['×', '\\times'],
  ['·', '\\cdot'],
  ['⋅', '\\cdot'],
  ['÷', '\\div'],
  ['±', '\\pm'],
  ['−', '-'],
  ['≈', '\\approx'],
  ['≠', '\\ne'],
  ['≤', '\\le'],
  ['≥', '\\ge'],
  ['→', '\\to'],
  ['√', '\\surd'],
  ['∂', '\\partial'],
  ['°', '{^\\circ}'],
  ['º', '{^\\circ}'],
  ['′', '{^{\\prime}}'],
  ['″', '{^{\\prime\\prime}}'],
]);

const ESCAPED: ReadonlyMap<string, string> = new Map([
  ['\\', '\\textbackslash{}'],
  ['{', '\\{'],
  ['}', '\\}'],
  ['$', '\\textdollar{}'],
  ['%', '\\%'],
  ['&', '\\&'],
  ['#', '\\#'],
  ['_', '\\_'],
  ['~', '\\textasciitilde{}'],
  ['^', '\\textasciicircum{}'],
  // What Markdown reads as its own, in a table's cell or in a renderer without mathematics.
  ['|', '\\textbar{}'],
  ['<', '\\textless{}'],
  ['>', '\\textgreater{}'],
  ['`', '\\textquoteleft{}'],
  ['*', '{*}'],
  ['[', '{[}'],
  [']', '{]}'],
]);

/** Letters and marks that the math fonts of the usual renderers have in text. */
const KNOWN =
  /^[\x20-\x7e‘’“”–—…ÀÁÂÃÄÅÆÇÈÉÊËÌÍÎÏÑÒÓÔÕÖØÙÚÛÜÝßàáâãäåæçèéêëìíîïñòóôõöøùúûüýÿ\u0100-\u024f\u0400-\u04ff\u0531-\u058f\u0900-\u109f\u10a0-\u10ff\u3000-\u30ff\u4e00-\u9faf\uac00-\ud7af]$/u;

function textCharacter(character: string): string {
  const escaped = ESCAPED.get(character);
  if (escaped !== undefined) return escaped;
  if (KNOWN.test(character)) return character;
  if (/[\p{M}\p{C}]/u.test(character)) return '';
  // ệ is told as e, ² as 2, ﬁ as fi.
  const plain = [...character.normalize('NFKD')].filter(part => KNOWN.test(part) && !ESCAPED.has(part));
  return plain.length === 0 ? '?' : plain.join('');
}
