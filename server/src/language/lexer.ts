import { readDress } from './dress.ts';
import { emphasisMarks } from './emphasis.ts';
import { readNumber } from './number-lexer.ts';
import { characterAt, emit, isBlank, isDigit, isInvisible, type Scan, skipBlank } from './scan.ts';
import { type Span, spanOf, type Token } from './syntax.ts';
import { isPlainLetter, letterAt, ownersEnd, readWord } from './word-lexer.ts';

/**
 * Takes a line (or a part of one) apart into numbers, words and signs, as they are meant.
 *
 * `start` is the offset of `text` in the note; all spans count from the note's beginning. Signs that
 * look different but mean one thing become one (`−` is `-`, `*` is `×`); math and Markdown dress makes
 * no tokens. Every character has its place in a token, in the dress, in a space or in the comment, so
 * nothing typed is lost in silence. Takes time in proportion to the line's length; what follows more tokens
 * than any line of a block can need comes as one operator `…`, which no reader accepts.
 */
export function tokenize(text: string, start: number): { tokens: Token[]; comment: Span | null } {
  const end = commentStart(text) ?? text.length;
  const scan: Scan = {
    text,
    offset: start,
    end,
    tokens: [],
    braces: [],
    at: 0,
    spaced: false,
    dressFrom: null,
  };
  const emphasis = emphasisMarks(text, end);
  while (scan.at < end) {
    if (scan.tokens.length >= MOST_TOKENS_IN_LINE) {
      emit(scan, 'operator', '…', end);
      break;
    }
    const character = text[scan.at] as string;
    if (isBlank(character) || character === '~') {
      scan.spaced = true;
      scan.at += 1;
    } else if (emphasis.has(scan.at) || character === '$' || character === '`' || isInvisible(character)) {
      scan.at += 1;
    } else if (!readDress(scan)) {
      readToken(scan, character);
    }
  }
  return {
    tokens: scan.tokens,
    comment: end < text.length ? spanOf(start + end, start + text.length) : null,
  };
}

const MOST_TOKENS_IN_LINE = 10_000;

/** The place of a `#` that begins a comment: at the start, or after white space. */
export function commentStart(text: string): number | null {
  let at = text.indexOf('#');
  while (at !== -1) {
    if (at === 0 || isBlank(text[at - 1])) return at;
    at = text.indexOf('#', at + 1);
  }
  return null;
}

function readToken(scan: Scan, character: string): void {
  const { text, at, end } = scan;
  if (isPlainLetter(character.charCodeAt(0))) {
    readLetters(scan);
    return;
  }
  const number = character === '.' && goesOn(scan) ? null : readNumber(text, at, end);
  if (number !== null) {
    emit(scan, 'number', number.text, number.end);
    return;
  }
  const raised = readSuperscript(scan);
  if (raised !== null) {
    emit(scan, 'superscript', raised.text, raised.end);
    return;
  }
  const prime = readPrime(scan, character);
  if (prime !== null) {
    emit(scan, 'prime', prime.text, prime.end);
    return;
  }
  if (isDegree(character)) {
    emit(scan, 'degree', '°', at + 1);
    return;
  }
  if (character === '℃') {
    emit(scan, 'word', '°C', at + 1);
    return;
  }
  if (character === '%') {
    emit(scan, 'percent', '%', at + 1);
    return;
  }
  if (readLetters(scan)) return;
  const operator = readOperator(scan, character);
  emit(scan, 'operator', operator.text, operator.end);
}

/** Reads a word, or the x that is a sign, if the line goes on with one, and says whether it did. */
function readLetters(scan: Scan): boolean {
  const word = readWord(scan.text, scan.at, scan.end);
  if (word === null) return false;
  const owner = ownersEnd(scan.text, scan.at, word.end);
  if (owner !== null && owner <= scan.end) {
    emit(scan, 'word', scan.text.slice(scan.at, owner).replace('’', "'"), owner);
    return true;
  }
  const isTimes = (word.text === 'x' || word.text === 'X') && standsForTimes(scan, word.end);
  if (isTimes) emit(scan, 'operator', '×', word.end);
  else emit(scan, 'word', word.text, word.end);
  return true;
}

/** Whether a point follows a letter, a digit or a bracket directly: then it begins no number. */
function goesOn(scan: Scan): boolean {
  const before = scan.text[scan.at - 1];
  if (scan.at === 0 || before === undefined) return false;
  return isDigit(before) || before === ')' || letterAt(scan.text, scan.at - 1, scan.end) !== null;
}

/** A spaced `x` between two numbers (`17 x 0.02`, `3 mm x 2`) is the multiplication sign. */
function standsForTimes(scan: Scan, end: number): boolean {
  if (!isBlank(scan.text[scan.at - 1]) || !isBlank(characterAt(scan, end))) return false;
  const next = skipBlank(scan, end);
  const number =
    isDigit(characterAt(scan, next)) || (scan.text[next] === '.' && isDigit(scan.text[next + 1]));
  return number && endsNumber(scan.tokens);
}

/** Whether the last token ends a number, with its unit or in its brackets. */
function endsNumber(tokens: readonly Token[]): boolean {
  const last = tokens[tokens.length - 1];
  if (last === undefined) return false;
  switch (last.kind) {
    case 'number':
    case 'prime':
    case 'degree':
    case 'percent':
    case 'superscript':
      return true;
    case 'word':
      return tokens[tokens.length - 2]?.kind === 'number';
    case 'operator':
      return last.text === ')';
  }
}

const SUPERSCRIPTS = '⁰¹²³⁴⁵⁶⁷⁸⁹';

/** `²`, `⁻²`: an exponent in small raised digits. */
function readSuperscript(scan: Scan): { text: string; end: number } | null {
  if (scan.text.charCodeAt(scan.at) < 0x80) return null;
  const signed = scan.text[scan.at] === '⁻' || scan.text[scan.at] === '⁺';
  let end = signed ? scan.at + 1 : scan.at;
  let digits = '';
  for (;;) {
    const digit = SUPERSCRIPTS.indexOf(characterAt(scan, end) ?? ' ');
    if (digit === -1) break;
    digits += digit;
    end += 1;
  }
  if (digits === '') return null;
  return { text: scan.text[scan.at] === '⁻' ? `-${digits}` : digits, end };
}

/** Minutes and seconds of arc: `′ ″` anywhere, quotation marks only behind a number. */
function readPrime(scan: Scan, character: string): { text: string; end: number } | null {
  const { text, at, tokens } = scan;
  if (character === '″') return { text: '″', end: at + 1 };
  const afterNumber = tokens[tokens.length - 1]?.kind === 'number';
  if ((character === '"' || character === '”' || character === '“') && afterNumber)
    return { text: '″', end: at + 1 };
  const single =
    character === '′' || ((character === "'" || character === '’' || character === '‘') && afterNumber);
  if (!single) return null;
  return characterAt(scan, at + 1) === text[at] ? { text: '″', end: at + 2 } : { text: '′', end: at + 1 };
}

function isDegree(character: string): boolean {
  return character === '°' || character === 'º' || character === '˚' || character === '∘';
}

/** Signs that stand for one and the same operator. */
const OPERATORS: ReadonlyMap<string, string> = new Map([
  ['−', '-'],
  ['‐', '-'],
  ['‑', '-'],
  ['﹣', '-'],
  ['－', '-'],
  ['*', '×'],
  ['✕', '×'],
  ['✖', '×'],
  ['÷', '/'],
  ['∕', '/'],
  ['⁄', '/'],
  ['⇒', '⇒'],
  ['⟹', '⇒'],
  ['∴', '⇒'],
  ['＋', '+'],
  ['＝', '='],
  ['∣', '|'],
]);

const DOTS = '·⋅∙';
const DASHES = '–—‒';

function readOperator(scan: Scan, character: string): { text: string; end: number } {
  const { text, at, end } = scan;
  const one = at + 1;
  if (character === '+') {
    if (/^\/[-−–]/.test(text.slice(one, Math.min(one + 2, end)))) return { text: '±', end: at + 3 };
    if (one < end && '-−–'.includes(text[one] as string)) return { text: '±', end: at + 2 };
  }
  if (character === '=' && characterAt(scan, one) === '>') return { text: '⇒', end: at + 2 };
  if (DOTS.includes(character)) {
    const betweenDigits = isDigit(text[at - 1]) && isDigit(characterAt(scan, one));
    return { text: betweenDigits ? '·' : '×', end: one };
  }
  if (DASHES.includes(character)) return { text: marksRange(scan, one) ? '–' : '-', end: one };
  const known = OPERATORS.get(character);
  if (known !== undefined) return { text: known, end: one };
  const point = String.fromCodePoint(text.codePointAt(at) as number);
  return { text: point, end: Math.min(at + point.length, end) };
}

/** A dash without spaces between two numbers (`2.3–2.4`, `2.3 cm–2.4 cm`) is a range, no minus. */
function marksRange(scan: Scan, after: number): boolean {
  const next = characterAt(scan, after);
  const number = isDigit(next) || (next === '.' && isDigit(characterAt(scan, after + 1)));
  const last = scan.tokens[scan.tokens.length - 1];
  return number && !scan.spaced && last?.text !== ')' && endsNumber(scan.tokens);
}
