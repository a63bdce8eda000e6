import { isDigit } from './scan.ts';

/** A number as the lexer hands it on, and where it ends in the text. */
export interface NumberRead {
  /** Digits with a point, and an exponent after `e` where one is written: `2.45`, `1195635`, `2.5e-3`. */
  readonly text: string;
  readonly end: number;
}

/**
 * Reads a number: `2.45`, `.5` (as `0.5`), `1 195 635`, `2.5e-3`. Null where none stands at `at`.
 *
 * The sign is no part of it. Digits grouped by three count as one number unless the last group may begin
 * the fraction of a mixed number (`2 375/1000`), which the parser asks about.
 */
export function readNumber(text: string, at: number, end: number): NumberRead | null {
  const leadingPoint = text[at] === '.' && at + 1 < end && isDigit(text[at + 1]);
  if (!leadingPoint && !isDigit(text[at])) return null;
  let digits = '0';
  let next = at;
  if (!leadingPoint) {
    next = skipDigits(text, at, end);
    digits = text.slice(at, next);
    if (next - at <= 3 && text[at] !== '0') {
      for (;;) {
        const group = groupAt(text, next, end);
        if (group === null || beginsFraction(text, group, end)) break;
        digits += text.slice(group.from, group.end);
        next = group.end;
      }
    }
  }
  if (text[next] === '.' && next + 1 < end && isDigit(text[next + 1])) {
    const decimalsEnd = skipDigits(text, next + 1, end);
    digits += text.slice(next, decimalsEnd);
    next = decimalsEnd;
  }
  const exponent = exponentAt(text, next, end);
  return exponent === null
    ? { text: digits, end: next }
    : { text: `${digits}e${exponent.text}`, end: exponent.end };
}

interface Group {
  readonly from: number;
  readonly end: number;
}

/** Plain, no-break, thin, figure and narrow no-break spaces: what sets digits apart in groups. */
const GROUP_SPACES = ' \u00A0\u2009\u2007\u202F';

/** A thin space stands nowhere but in a group; these may stand before the fraction of a mixed number, too. */
const PLAIN_SPACES = ' \u00A0';

/** One space and exactly three digits at a place, or null. */
function groupAt(text: string, at: number, end: number): Group | null {
  if (at + 4 > end || !GROUP_SPACES.includes(text[at] as string)) return null;
  for (let place = at + 1; place <= at + 3; place += 1) if (!isDigit(text[place])) return null;
  if (at + 4 < end && isDigit(text[at + 4])) return null;
  return { from: at + 1, end: at + 4 };
}

/** Whether three digits are the numerator of a proper fraction: then a mixed number may be meant. */
function beginsFraction(text: string, group: Group, end: number): boolean {
  if (text[group.from] === '0' || !PLAIN_SPACES.includes(text[group.from - 1] as string)) return false;
  let at = group.end;
  while (at < end && text[at] === ' ') at += 1;
  if (at >= end || !'/∕⁄÷'.includes(text[at] as string)) return false;
  at += 1;
  while (at < end && text[at] === ' ') at += 1;
  const digitsEnd = skipDigits(text, at, end);
  if (text[digitsEnd] === '.' && isDigit(text[digitsEnd + 1])) return false;
  const denominator = text.slice(at, digitsEnd).replace(/^0+/, '');
  const numerator = text.slice(group.from, group.end);
  if (denominator.length !== numerator.length) return numerator.length < denominator.length;
  return numerator < denominator;
}

/** `e-3` or `E5` behind a number; only when digits follow. */
function exponentAt(text: string, at: number, end: number): NumberRead | null {
  if (at >= end || (text[at] !== 'e' && text[at] !== 'E')) return null;
  const signed = '+-−'.includes(text[at + 1] ?? 'e');
  const from = signed ? at + 2 : at + 1;
  if (from >= end || !isDigit(text[from])) return null;
  const next = skipDigits(text, from, end);
  const sign = signed && text[at + 1] !== '+' ? '-' : '';
  return { text: sign + text.slice(from, next), end: next };
}

function skipDigits(text: string, at: number, end: number): number {
  let next = at;
  while (next < end && isDigit(text[next])) next += 1;
  return next;
}
