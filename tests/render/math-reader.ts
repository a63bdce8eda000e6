import * as R from '../../server/src/engine/rational.ts';
import { mathPieces } from './strict-katex.ts';

/** What a formula of a worked solution says at its end, as somebody reads it who sees nothing but the formula. */
export interface ReadResult {
  /** The left side in plain words: `observed reading`, `rho`, `t_1`. */
  readonly left: string;
  readonly relation: '=' | '≈';
  /** Null where the last link is no single value, but letters or a formula. */
  readonly value: ReadValue | null;
  /** What stands behind ±. */
  readonly error: ReadValue | null;
  /** The last link as it stands. */
  readonly latex: string;
}

export interface ReadValue {
  /** The number in its unit; of degrees and minutes together in degrees. */
  readonly value: R.Rational;
  /** One in the last place that is written, in the unit; null for a fraction. */
  readonly place: R.Rational | null;
  /** As people write it: `mm`, `g/cm^3`, `°`, `%`; empty for none. */
  readonly unit: string;
}

/** The last values of all displayed formulas of a Markdown text, from the top down. */
export function readResults(markdown: string): ReadResult[] {
  return mathPieces(markdown).flatMap(({ latex, isDisplayed }) => (isDisplayed ? readChain(latex) : []));
}

function readChain(latex: string): ReadResult[] {
  const line = latex
    .replace(/\\begin\{aligned\}|\\end\{aligned\}/g, '')
    .replace(/\\\\\n/g, ' ')
    .replace(/(?<!\\)&/g, '')
    .trim();
  const [left = '', ...rest] = atTop(line, ['=', '\\approx ']);
  const last = rest.at(-1);
  if (last === undefined) return [];
  const relation = line
    .slice(0, line.length - last.length)
    .trimEnd()
    .endsWith('=')
    ? '='
    : '≈';
  const [value = '', error] = atTop(last, ['\\pm ']).map(part => part.trim());
  return [
    {
      left: plainText(left),
      relation,
      value: readValue(value),
      error: error === undefined ? null : readValue(error),
      latex: last.trim(),
    },
  ];
}

/** The pieces between some signs that stand in no braces. */
function atTop(latex: string, signs: readonly string[]): string[] {
  const pieces: string[] = [];
  let depth = 0;
  let from = 0;
  for (let at = 0; at < latex.length; at += 1) {
    const sign = depth === 0 ? signs.find(one => latex.startsWith(one, at)) : undefined;
    if (sign !== undefined) {
      pieces.push(latex.slice(from, at));
      at += sign.length - 1;
      from = at + 1;
    } else if (latex[at] === '\\') at += 1;
    else if (latex[at] === '{') depth += 1;
    else if (latex[at] === '}') depth -= 1;
  }
  return [...pieces, latex.slice(from)];
}

const NUMBER =
  /^(?:(?<whole>\d*)\\tfrac\{(?<upper>\d+)\}\{(?<lower>\d+)\}|10\^\{(?<alone>-?\d+)\}|(?<digits>\d+(?:\.\d+)?)(?: \\times 10\^\{(?<power>-?\d+)\})?)/;
const UNIT =
  /^(?:\\,\\text\{(?<word>[A-Za-z]+)\}|\\,\\mu\\mathrm\{(?<micro>[A-Za-z]+)\}|\\,\\mathrm\{(?<compound>(?:[^{}]|\{[^{}]*\})*)\}|(?<sign>\^\\circ|''|'|\\,\\%|\\,\\Omega|\\,\{\^\\circ\}\\mathrm\{C\}|\\,\\mathring\{\\mathrm\{A\}\}))/;

const SIGNS: Readonly<Record<string, string>> = {
  '^\\circ': '°',
  "'": '′',
  "''": '″',
  '\\,\\%': '%',
  '\\,\\Omega': 'Ω',
  '\\,{^\\circ}\\mathrm{C}': '°C',
  '\\,\\mathring{\\mathrm{A}}': 'Å',
};

/** One value with its unit; null for anything else. */
export function readValue(latex: string): ReadValue | null {
  const sign = /^[-+]/.exec(latex)?.[0] ?? '';
  const parts: ReadValue[] = [];
  let rest = latex.slice(sign.length);
  while (rest !== '') {
    const number = readNumber(rest);
    if (number === null) return null;
    const unit = UNIT.exec(rest.slice(number.length));
    parts.push({ ...number, unit: unit === null ? '' : unitOf(unit) });
    rest = rest.slice(number.length + (unit?.[0].length ?? 0)).replace(/^\\,(?=\d)/, '');
  }
  const joint = parts.length === 1 ? parts[0] : inDegrees(parts);
  if (joint === undefined || joint === null) return null;
  return sign === '-' ? { ...joint, value: R.negate(joint.value) } : joint;
}

function readNumber(latex: string): { value: R.Rational; place: R.Rational | null; length: number } | null {
  const match = NUMBER.exec(latex);
  if (match === null || match[0] === '') return null;
  const { whole = '', upper, lower, alone, digits, power } = match.groups ?? {};
  const { length } = match[0];
  if (upper !== undefined && lower !== undefined) {
    const value = R.add(
      R.rational(whole === '' ? 0 : Number(whole)),
      R.rational(BigInt(upper), BigInt(lower)),
    );
    return { value, place: null, length };
  }
  const scale = R.powerInteger(R.TEN, Number(alone ?? power ?? 0));
  if (scale === null) return null;
  if (digits === undefined) return { value: scale, place: null, length };
  const places = digits.includes('.') ? digits.length - digits.indexOf('.') - 1 : 0;
  const place = R.powerInteger(R.TEN, -places) as R.Rational;
  return { value: R.multiply(R.rational(digits), scale), place: R.multiply(place, scale), length };
}

function unitOf({ groups = {} }: RegExpExecArray): string {
  const { word, micro, compound, sign } = groups;
  if (word !== undefined) return word;
  if (micro !== undefined) return `µ${micro}`;
  if (sign !== undefined) return SIGNS[sign] ?? sign;
  return (compound ?? '')
    .replace(/\{\^\\circ\}/g, '°')
    .replace(/\{\^\{\\prime\\prime\}\}/g, '″')
    .replace(/\{\^\{\\prime\}\}/g, '′')
    .replace(/\^\{([^{}]*)\}/g, '^$1')
    .replace(/\\,/g, ' ')
    .replace(/\\mu /g, 'µ')
    .replace(/\\Omega /g, 'Ω')
    .replace(/\\mathring\{A\}/g, 'Å')
    .replace(/\\%/g, '%');
}

const SHARE: Readonly<Record<string, number>> = { '°': 1, '′': 60, '″': 3600 };

/** Degrees, minutes and seconds together; null for other units in a row. */
function inDegrees(parts: readonly ReadValue[]): ReadValue | null {
  let value = R.ZERO;
  let place: R.Rational | null = null;
  for (const part of parts) {
    const share = SHARE[part.unit];
    if (share === undefined) return null;
    const one = R.rational(1, share);
    value = R.add(value, R.multiply(part.value, one));
    place = part.place === null ? null : R.multiply(part.place, one);
  }
  return parts.length === 0 ? null : { value, place, unit: '°' };
}

/** A name without its dress: `\text{mean of }T` is `mean of T`. */
export function plainText(latex: string): string {
  return latex
    .replace(/\\(?:text|mathit|mathrm)\{((?:[^{}]|\{[^{}]*\})*)\}/g, '$1')
    .replace(/_\{([^{}]*)\}/g, '_$1')
    .replace(/\\([A-Za-z]+) ?/g, '$1')
    .replace(/\\,/g, ' ')
    .trim();
}
