import { greekName } from './greek.ts';
import { isDigit } from './scan.ts';

/** A word as the lexer hands it on, and where it ends in the text. */
export interface WordRead {
  readonly text: string;
  readonly end: number;
}

/**
 * Reads a word: letters, then digits, then a subscript: `D`, `t1`, `m_0`, `D₁`, `m_{0}`.
 *
 * A Greek letter is a word of its own, spelt out (`πD` is two words, pi and D), but for the micro sign
 * before a letter and the ohm, which belong to a unit (`µm`, `kΩ`). Null where no letter stands at `at`.
 */
export function readWord(text: string, at: number, end: number): WordRead | null {
  const plain = plainWord(text, at, end);
  if (plain !== null) return plain;
  const first = letterAt(text, at, end);
  if (first === null) return null;
  const barred = readBarredLetter(text, first, end);
  if (barred !== null) return barred;
  const greek = greekName(first.letter);
  let word: string;
  let next = first.end;
  if (greek !== null && !(isMicro(first.letter) && isLatin(letterAt(text, next, end)))) {
    word = greek;
  } else {
    word = isMicro(first.letter) ? 'µ' : first.letter;
    for (;;) {
      const letter = letterAt(text, next, end);
      if (letter === null || greekName(letter.letter) !== null) break;
      word += letter.letter;
      next = letter.end;
    }
  }
  const digitsEnd = skipDigits(text, next, end);
  word += text.slice(next, digitsEnd);
  return withSubscripts(text, { text: word, end: digitsEnd }, end);
}

/** Where a word with an owner's ending ends, whose letters end at `end`: `Young's`, `Stokes' law`; null for none. */
export function ownersEnd(text: string, start: number, end: number): number | null {
  const mark = text[end];
  if (end - start < 3 || (mark !== "'" && mark !== '’')) return null;
  if (text[end + 1] === 's' && !isWordCharacter(text[end + 2])) return end + 2;
  const isMany = end - start > 3 && text[end - 1] === 's';
  return isMany && text[end + 1] === ' ' && isPlainLetter(text.charCodeAt(end + 2)) ? end + 1 : null;
}

function isWordCharacter(character: string | undefined): boolean {
  return character !== undefined && /[\p{L}\p{M}\d_'’]/u.test(character);
}

/** Nearly every word: plain letters with digits behind them, and nothing that could belong to them. Null for the rest. */
function plainWord(text: string, at: number, end: number): WordRead | null {
  let next = at;
  while (next < end && isPlainLetter(text.charCodeAt(next))) next += 1;
  if (next === at) return null;
  next = skipDigits(text, next, end);
  if (next < end && (text.charCodeAt(next) >= 0x80 || text[next] === '_')) return null;
  return { text: text.slice(at, next), end: next };
}

/** Whether a code is that of one of the 52 letters without an accent. */
export function isPlainLetter(code: number): boolean {
  return (0x61 <= code && code <= 0x7a) || (0x41 <= code && code <= 0x5a);
}

/** Goes on with the subscripts that follow a word: `_0`, `_max`, `_{0}`, `_\text{max}`, `₀`. */
export function withSubscripts(text: string, word: WordRead, end: number): WordRead {
  let { text: name, end: next } = word;
  for (;;) {
    const subscript = readSubscript(text, next, end);
    if (subscript === null) return { text: name, end: next };
    name += `_${subscript.text}`;
    next = subscript.end;
  }
}

/**
 * What stands below a bar, named as a symbol: `T_bar` for `\bar{T}` and `\bar T`, `theta_1_bar` for `\overline{\theta}_1`.
 *
 * `at` is where the command ends. Null for more than one name.
 */
export function readBarred(text: string, at: number, end: number): WordRead | null {
  const limit = Math.min(end, at + LONGEST_SUBSCRIPT);
  const [opening = '', brace, command] = BELOW_BAR.exec(text.slice(at, limit)) ?? [];
  const from = at + opening.length;
  const symbol = command === undefined ? readWord(text, from, limit) : { text: command, end: from };
  if (symbol === null) return null;
  const inside = withSubscripts(text, symbol, limit);
  const closing = brace === undefined ? '' : /^\s*\}/.exec(text.slice(inside.end, limit))?.[0];
  if (closing === undefined) return null;
  const whole = withSubscripts(text, { text: inside.text, end: inside.end + closing.length }, end);
  return { text: `${whole.text}_bar`, end: whole.end };
}

/** `T̄`, `θ̄`, `T̄₁`: one letter with a bar of its own over it, in one character or two; null for letters in a word. */
function readBarredLetter(text: string, { letter, end: after }: LetterRead, end: number): WordRead | null {
  const [base = '', own] = letter.normalize('NFD');
  const mark = own ?? (after < end ? text[after] : undefined);
  if (mark !== '\u0304' && mark !== '\u0305') return null;
  const next = own === undefined ? after + 1 : after;
  if (letterAt(text, next, end) !== null) return null;
  const digitsEnd = skipDigits(text, next, end);
  const name = (greekName(base) ?? base) + text.slice(next, digitsEnd);
  const whole = withSubscripts(text, { text: name, end: digitsEnd }, end);
  return { text: `${whole.text}_bar`, end: whole.end };
}

const BELOW_BAR = /^\s*(\{)?\s*(?:\\([A-Za-z]+))?/;

/** A subscript longer than this is no name's. It also bounds the search for a closing brace. */
const LONGEST_SUBSCRIPT = 80;

function readSubscript(text: string, at: number, end: number): WordRead | null {
  if (at >= end) return null;
  let small = '';
  let next = at;
  while (next < end && SUBSCRIPTS.has(text[next] as string)) {
    small += SUBSCRIPTS.get(text[next] as string);
    next += 1;
  }
  if (small !== '') return { text: small, end: next };
  if (text[at] !== '_') return null;
  const after = text[at + 1];
  if (at + 1 >= end) return null;
  if (after === '{' || after === '\\') return readBracedSubscript(text, at + 1, end);
  return readLettersAndDigits(text, at + 1, end);
}

function readLettersAndDigits(text: string, at: number, end: number): WordRead | null {
  let name = '';
  let next = at;
  while (next < end) {
    if (isDigit(text[next])) {
      name += text[next];
      next += 1;
      continue;
    }
    const letter = letterAt(text, next, end);
    if (letter === null) break;
    name += greekName(letter.letter) ?? letter.letter;
    next = letter.end;
  }
  return name === '' ? null : { text: name, end: next };
}

const WRAPPER = /\\(?:text|mathrm|mathit|mathbf|textrm|rm|it)(?![A-Za-z])/y;
const COMMAND = /\\([A-Za-z]+)/y;

/** `_{max}`, `_{\text{max}}`, `_\text{max}`, `_\theta`: what stands in the braces, spaces left out. */
function readBracedSubscript(text: string, at: number, end: number): WordRead | null {
  const limit = Math.min(end, at + LONGEST_SUBSCRIPT);
  let name = '';
  let depth = 0;
  let next = at;
  while (next < limit) {
    const character = text[next] as string;
    if (character === '{') depth += 1;
    else if (character === '}') depth -= 1;
    else if (character === '\\') {
      WRAPPER.lastIndex = next;
      COMMAND.lastIndex = next;
      if (WRAPPER.test(text)) {
        next = WRAPPER.lastIndex;
        continue;
      }
      const command = COMMAND.exec(text);
      if (command === null) return null;
      name += command[1];
      next = COMMAND.lastIndex;
      if (depth === 0) return { text: name, end: next };
      continue;
    } else if (!/\s/.test(character)) {
      const part = readLettersAndDigits(text, next, limit);
      if (part === null) return null;
      name += part.text;
      next = part.end;
      continue;
    }
    next += 1;
    if (depth < 0) return null;
    if (depth === 0) return name === '' ? null : { text: name, end: next };
  }
  return null;
}

interface LetterRead {
  /** One code point, in its plain form: a slanted mathematical `𝐷` is a `D`. */
  readonly letter: string;
  readonly end: number;
}

const LETTER = /^[\p{L}\p{M}]$/u;

/** The letter at a place, or null. Accents that stand as marks of their own count as letters. */
export function letterAt(text: string, at: number, end: number): LetterRead | null {
  if (at >= end) return null;
  const point = text.codePointAt(at) as number;
  if (point < 0x80) {
    return isPlainLetter(point) ? { letter: text[at] as string, end: at + 1 } : null;
  }
  const character = String.fromCodePoint(point);
  if (!LETTER.test(character) || SUBSCRIPTS.has(character) || character === 'º') return null;
  const after = at + character.length;
  if (point < 0x2000) return { letter: character, end: after };
  const plain = character.normalize('NFKC');
  return { letter: plain.length <= 2 && LETTER.test(plain) ? plain : character, end: after };
}

function isMicro(letter: string): boolean {
  return letter === 'µ' || letter === 'μ';
}

function isLatin(letter: LetterRead | null): boolean {
  return letter !== null && greekName(letter.letter) === null;
}

function skipDigits(text: string, at: number, end: number): number {
  let next = at;
  while (next < end && isDigit(text[next])) next += 1;
  return next;
}

const SUBSCRIPTS: ReadonlyMap<string, string> = new Map([
  ...Array.from('₀₁₂₃₄₅₆₇₈₉', (sign, digit): [string, string] => [sign, String(digit)]),
  ...Array.from('ₐₑₒₓₕₖₗₘₙₚₛₜᵢⱼᵣᵤᵥ', (sign, index): [string, string] => [
    sign,
    'aeoxhklmnpstijruv'[index] as string,
  ]),
]);
