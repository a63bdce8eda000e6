import { unitLatex } from './unit-latex.ts';

/** A number with its unit as it is written, or several of them: `2.45 cm`, `24° 31′ 20″`; null for anything else. */
export function numbersLatex(text: string): string | null {
  let rest = text;
  let latex = '';
  while (rest !== '') {
    const number = numberLatex(rest);
    if (number === null) return null;
    const after = rest.slice(number.length);
    const next = /\s+\d/.exec(after)?.index ?? after.length;
    latex += (latex === '' ? '' : '\\,') + number.latex + unitLatex(after.slice(0, next));
    rest = after.slice(next).trim();
  }
  return latex === '' ? null : latex;
}

interface NumberLatex {
  readonly latex: string;
  /** How many characters of the text it takes. */
  readonly length: number;
}

const RAISED = '⁰¹²³⁴⁵⁶⁷⁸⁹';
const MIXED = /^(\d+)\s+(\d+)\s*\/\s*(\d+)/;
const FRACTION = /^(\d+)\s*\/\s*(\d+)/;
const TENFOLD = /^(?:(\d+(?:\.\d+)?)\s*[×x*]\s*)?10(?:\^\(?([-+]?\d+)\)?|([⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+))/;
const DECIMAL = /^(\d*\.?\d+)(?:e([-+]?\d+))?/;

function numberLatex(text: string): NumberLatex | null {
  const mixed = MIXED.exec(text);
  if (mixed !== null) return found(mixed, `${mixed[1]}\\tfrac{${mixed[2]}}{${mixed[3]}}`);
  const fraction = FRACTION.exec(text);
  if (fraction !== null) return found(fraction, `\\tfrac{${fraction[1]}}{${fraction[2]}}`);
  const tenfold = TENFOLD.exec(text);
  if (tenfold !== null) {
    const exponent = tenfold[2] ?? [...(tenfold[3] ?? '')].map(raisedDigit).join('');
    return found(tenfold, tenfoldLatex(tenfold[1], exponent));
  }
  const decimal = DECIMAL.exec(text);
  if (decimal === null) return null;
  const [, digits = '', exponent] = decimal;
  return found(decimal, exponent === undefined ? digits : tenfoldLatex(digits, exponent));
}

function found(match: RegExpExecArray, latex: string): NumberLatex {
  return { latex, length: match[0].length };
}

function tenfoldLatex(digits: string | undefined, exponent: string): string {
  const power = `10^{${exponent.replace('+', '')}}`;
  return digits === undefined ? power : `${digits} \\times ${power}`;
}

function raisedDigit(digit: string): string {
  return digit === '⁻' ? '-' : String(RAISED.indexOf(digit));
}
