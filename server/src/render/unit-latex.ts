import { wordsLatex } from './words-latex.ts';

/**
 * A unit behind its number, upright and with the gap that print has: `\,\text{mm}`, `\,\mathrm{g/cm^{3}}`, `^\circ`.
 *
 * `text` is the unit as it is written. Empty for none.
 */
export function unitLatex(text: string): string {
  const unit = text.trim();
  if (unit === '') return '';
  const sign = SIGNS.get(unit);
  if (sign !== undefined) return sign;
  if (/^[A-Za-z]+$/.test(unit)) return `\\,\\text{${unit}}`;
  if (/^[µμ][A-Za-z]+$/.test(unit)) return `\\,\\mu\\mathrm{${unit.slice(1)}}`;
  const compound = compoundLatex(unit);
  return compound === null ? `\\,${wordsLatex(unit)}` : `\\,\\mathrm{${compound}}`;
}

const SIGNS: ReadonlyMap<string, string> = new Map([
  ['°', '^\\circ'],
  ['deg', '^\\circ'],
  ['′', "'"],
  ["'", "'"],
  ['arcmin', "'"],
  ['″', "''"],
  ["''", "''"],
  ['"', "''"],
  ['arcsec', "''"],
  ['%', '\\,\\%'],
  ['°C', '\\,{^\\circ}\\mathrm{C}'],
  ['Ω', '\\,\\Omega'],
  ['Å', '\\,\\mathring{\\mathrm{A}}'],
]);

const RAISED = '⁰¹²³⁴⁵⁶⁷⁸⁹';
const PART =
  /[A-Za-z]+|[µμ]|Ω|Å|°C?|′|″|%|\^\(?-?\d+(?:\/\d+)?\)?|[⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+|\d|\s*[·×*]\s*|\s*\/\s*|\s+|[()]/gy;

/** `g/cm^{3}`, `m\,s^{-2}`; null where something stands in it that no unit has. */
function compoundLatex(unit: string): string | null {
  let latex = '';
  let end = 0;
  PART.lastIndex = 0;
  for (let part = PART.exec(unit); part !== null; part = PART.exec(unit)) {
    latex += partLatex(part[0]);
    end = PART.lastIndex;
  }
  return end === unit.length ? latex : null;
}

function partLatex(part: string): string {
  if (part.startsWith('^')) return `^{${part.slice(1).replace(/[()]/g, '')}}`;
  if (/^[⁻⁰¹²³⁴⁵⁶⁷⁸⁹]/.test(part)) return `^{${[...part].map(raisedDigit).join('')}}`;
  // cm3 is a cubic centimetre.
  if (/^\d$/.test(part)) return `^{${part}}`;
  if (part.trim() === '/') return '/';
  if (part.trim() === '' || /[·×*]/.test(part)) return '\\,';
  switch (part) {
    case 'µ':
    case 'μ':
      return '\\mu ';
    case 'Ω':
      return '\\Omega ';
    case 'Å':
      return '\\mathring{A}';
    case '°':
      return '{^\\circ}';
    case '°C':
      return '{^\\circ}C';
    case '′':
      return '{^{\\prime}}';
    case '″':
      return '{^{\\prime\\prime}}';
    case '%':
      return '\\%';
    default:
      return part;
  }
}

function raisedDigit(digit: string): string {
  return digit === '⁻' ? '-' : String(RAISED.indexOf(digit));
}
