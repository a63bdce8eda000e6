import type { Token } from './syntax.ts';

const CONNECTIVES = new Set([
  'so',
  'hence',
  'thus',
  'therefore',
  'then',
  'now',
  'and',
  'also',
  'we',
  'have',
  'get',
]);
const HEADINGS = new Set([
  'given',
  'solution',
  'working',
  'sol',
  'soln',
  'answer',
  'calculation',
  'calculations',
  'data',
]);

/**
 * A line without what only dresses it: a bullet, `∴`, "hence", a final stop; nothing is left of a lone "Solution".
 *
 * Spelling and dress, never meaning.
 */
export function trimDress(tokens: readonly Token[], atStart: boolean): readonly Token[] {
  let from = 0;
  let to = tokens.length;
  while (to > from && isMark(tokens[to - 1]!, STOPS)) to -= 1;
  if (atStart) from = startOf(tokens, to);
  return unbracketed(tokens.slice(from, to));
}

/** What is left of a line, with the number that stood right before it: `1. none of these`. */
export function withNumber(line: readonly Token[], rest: readonly Token[]): readonly Token[] {
  const at = line.indexOf(rest[0]!);
  const before = line.slice(Math.max(at - 2, 0), Math.max(at, 0));
  return before.length === 2 && isNumbering(before) ? [...before, ...rest] : rest;
}

/** A line without the number before its words: `1. A student measures`. */
export function withoutNumber(tokens: readonly Token[]): readonly Token[] {
  return tokens[2]?.kind === 'word' && isNumbering(tokens) ? tokens.slice(2) : tokens;
}

/** Whether tokens begin with the number of an item in a list: `1.`, `2)`. */
function isNumbering([number, mark]: readonly Token[]): boolean {
  return (
    number?.kind === 'number' &&
    /^\d{1,2}$/.test(number.text) &&
    mark !== undefined &&
    isMark(mark, NUMBERING)
  );
}

function startOf(tokens: readonly Token[], to: number): number {
  let from = 0;
  for (;;) {
    const token = tokens[from];
    if (token === undefined || from >= to) return from;
    const next = tokens[from + 1];
    if (isHeading(tokens, from, to)) {
      from += next !== undefined && isMark(next, [':', '.', '-', ')']) ? 2 : 1;
    } else if (isMark(token, BULLETS)) {
      from += 1;
    } else if (isMark(token, SIGN_BULLETS) && next?.spaced) {
      from += 1; // a bullet; a sign would stand right before its number
    } else if (isStep(tokens, from, to)) {
      from += 3; // `(ii) main scale: …`
    } else if (tokens[from + 2]?.kind === 'word' && isNumbering(tokens.slice(from, from + 2))) {
      from += 2; // `1. main scale: …`
    } else if (
      token.kind === 'word' &&
      CONNECTIVES.has(token.text.toLowerCase()) &&
      next !== undefined &&
      (next.kind === 'word' || isMark(next, [',']))
    ) {
      from += 1;
    } else {
      return from;
    }
  }
}

/** `(2)`, `(ii)` before a name and its sign: the number of a step, and no choice. */
function isStep(tokens: readonly Token[], from: number, to: number): boolean {
  const [open, number, close, name] = tokens.slice(from, from + 4);
  return (
    open !== undefined &&
    isMark(open, ['(']) &&
    /^(?:\d{1,2}|i{1,3}|iv|vi{0,3}|ix)$/.test(number?.text ?? '') &&
    close !== undefined &&
    isMark(close, [')']) &&
    name?.kind === 'word' &&
    tokens.slice(from + 4, to).some(token => isMark(token, ['=', ':']))
  );
}

/** "Given", "Solution:" alone on the line, or "Given:" before a statement with its own sign. */
function isHeading(tokens: readonly Token[], from: number, to: number): boolean {
  const token = tokens[from]!;
  if (token.kind !== 'word' || !HEADINGS.has(token.text.toLowerCase())) return false;
  const rest = tokens.slice(from + 1, to);
  if (rest.every(other => isMark(other, [':', '.', '-', '—', '–']))) return true;
  if (token.text.toLowerCase() === 'answer') return false;
  return isMark(rest[0]!, [':']) && rest.slice(1).some(other => isMark(other, ['=', ':']));
}

/** `2.45 [cm]` is 2.45 cm: square brackets around a unit are dress; those behind a name part it from its unit. */
function unbracketed(tokens: readonly Token[]): readonly Token[] {
  if (!tokens.some(token => isMark(token, OPENING))) return tokens;
  const sign = tokens.findIndex(token => isMark(token, SIGNS));
  return tokens.flatMap((token, index) => {
    if (!isMark(token, SQUARE)) return [token];
    return 0 < index && index < sign ? [{ ...token, text: token.text === '[' ? '(' : ')' }] : [];
  });
}

function isMark(token: Token, marks: readonly string[]): boolean {
  return token.kind === 'operator' && marks.includes(token.text);
}

// Lists that are asked for at each line are made once.
const OPENING = ['['];
const SQUARE = ['[', ']'];
const SIGNS = [':', '='];
const STOPS = ['.', ',', ';', '\\', '\\\\', '⇒'];
const BULLETS = ['⇒', '•', '‣', '▪', '→', '>', '.', ',', '\\'];
const NUMBERING = ['.', ')'];
const SIGN_BULLETS = ['-', '×', '+'];

/** The tokens as one text, with the spaces that were typed; raised digits as a power, so that x² does not become x2. */
export function tokensText(tokens: readonly Token[]): string {
  let text = '';
  for (let index = 0; index < tokens.length; index++) {
    const token = tokens[index]!;
    const own = token.kind === 'superscript' ? `^${token.text}` : token.text;
    text += index > 0 && token.spaced ? ` ${own}` : own;
  }
  return text;
}
