import type { Quantity } from '../engine/quantity.ts';
import * as R from '../engine/rational.ts';
import { unitShown } from '../engine/unit.ts';
import { letteredLatex } from './lettered-latex.ts';
import { numbersLatex } from './number-latex.ts';
import { unitLatex } from './unit-latex.ts';
import { wordsLatex } from './words-latex.ts';

/** A value as it is written down, in math: `2.45\,\text{cm}`, `24^\circ\,31'`, `2\tfrac{3}{8}\,\text{in}`, `\frac{w}{2k}`. */
export function valueLatex(text: string, quantity: Quantity): string {
  const trimmed = text.trim();
  if (quantity.scalar.kind === 'formula') return inLetters(trimmed, quantity);
  const sign = /^[-+−]/.exec(trimmed)?.[0] ?? '';
  const latex = numbersLatex(trimmed.slice(sign.length).trim());
  return latex === null ? wordsLatex(trimmed) : `${sign === '−' ? '-' : sign}${latex}`;
}

/** What is written in other units than the base ones has its unit behind the letters. */
function inLetters(text: string, { unit }: Quantity): string {
  const shown = unit === null || R.equals(unit.factor, R.ONE) ? '' : unitShown(unit);
  const hasUnit = shown !== '' && text.endsWith(shown);
  const letters = hasUnit ? text.slice(0, -shown.length).trim() : text;
  const latex = letteredLatex(letters);
  return latex === null ? wordsLatex(text) : latex + (hasUnit ? unitLatex(shown) : '');
}
