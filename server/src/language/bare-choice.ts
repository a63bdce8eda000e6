import { isSign } from './parser.ts';
import type { Token } from './syntax.ts';

/** `(a) 3.2 cm`, `A. 3.2 cm`, `b) 3.2 cm`: a choice without the word; null when the line is none. */
export function readBareOption(tokens: readonly Token[]): { letter: string; value: readonly Token[] } | null {
  const [first, second, third] = tokens;
  if (first === undefined || second === undefined) return null;
  if (
    isSign(first, '(') &&
    second.kind === 'word' &&
    /^[A-Ha-h]$/.test(second.text) &&
    third !== undefined &&
    isSign(third, ')')
  ) {
    return { letter: second.text.toUpperCase(), value: tokens.slice(3) };
  }
  if (
    first.kind === 'word' &&
    /^[A-Ha-h]$/.test(first.text) &&
    (isSign(second, '.') || isSign(second, ')'))
  ) {
    return { letter: first.text.toUpperCase(), value: tokens.slice(2) };
  }
  if (
    first.kind === 'word' &&
    /^(?:option|choice)$/i.test(first.text) &&
    (second.kind === 'word' || second.kind === 'number') &&
    /^(?:[A-Ha-h]|\d)$/.test(second.text)
  ) {
    return { letter: second.text.toUpperCase(), value: tokens.slice(2) };
  }
  return null;
}
