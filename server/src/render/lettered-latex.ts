import { nameLatex } from './name-latex.ts';

/**
 * A value in the letters of a block, as it is written down, as a formula: `w/(2k)` is `\frac{w}{2k}`.
 *
 * Null where the text is no such value.
 */
export function letteredLatex(text: string): string | null {
  const state: State = { parts: text.match(PART) ?? [], at: 0, depth: 0 };
  if (state.parts.join('').length !== text.replace(/\s+/g, '').length) return null;
  const sum = readSum(state);
  return state.at === state.parts.length ? sum : null;
}

interface State {
  readonly parts: readonly string[];
  at: number;
  depth: number;
}

const PART = /\d+(?:\.\d+)?(?:e-?\d+(?![\p{L}\d]))?|\p{L}[\p{L}\p{M}\d₀-₉]*(?:_[\p{L}\p{M}\d]+)*|[-+/^()]/gu;
const DEEPEST = 20;

function readSum(state: State): string | null {
  let latex = '';
  if (state.parts[state.at] === '-') {
    latex = '-';
    state.at += 1;
  }
  for (;;) {
    const product = readQuotient(state);
    if (product === null) return null;
    latex += product;
    const sign = state.parts[state.at];
    if (sign !== '+' && sign !== '-') return latex;
    latex += ` ${sign} `;
    state.at += 1;
  }
}

interface Factors {
  readonly latex: string;
  /** What stands in the brackets, where that is all. */
  readonly inner: string | null;
}

function readQuotient(state: State): string | null {
  let above = readFactors(state);
  while (above !== null && state.parts[state.at] === '/') {
    state.at += 1;
    const below = readFactors(state);
    if (below === null) return null;
    above = { latex: `\\frac{${above.inner ?? above.latex}}{${below.inner ?? below.latex}}`, inner: null };
  }
  return above === null ? null : above.latex;
}

function readFactors(state: State): Factors | null {
  let factors: Factors | null = null;
  for (;;) {
    const next = state.parts[state.at];
    if (next === undefined || /^[-+/)^]/.test(next)) return factors;
    const factor = readFactor(state, next);
    if (factor === null) return null;
    factors = factors === null ? factor : { latex: `${factors.latex} ${factor.latex}`, inner: null };
  }
}

function readFactor(state: State, first: string): Factors | null {
  const base = first === '(' ? readBrackets(state) : readWord(state, first);
  if (base === null || state.parts[state.at] !== '^') return base;
  const isNegative = state.parts[state.at + 1] === '-';
  const exponent = state.parts[state.at + (isNegative ? 2 : 1)];
  if (exponent === undefined || !/^\d+$/.test(exponent)) return null;
  state.at += isNegative ? 3 : 2;
  return { latex: `${base.latex}^{${isNegative ? '-' : ''}${exponent}}`, inner: null };
}

function readWord(state: State, word: string): Factors {
  state.at += 1;
  const [digits = '', exponent] = word.split('e');
  const isNumber = /^\d/.test(word);
  const number = exponent === undefined ? digits : `${digits} \\times 10^{${exponent}}`;
  return { latex: isNumber ? number : nameLatex(word), inner: null };
}

function readBrackets(state: State): Factors | null {
  if (state.depth >= DEEPEST) return null;
  state.at += 1;
  state.depth += 1;
  const inner = readSum(state);
  state.depth -= 1;
  if (inner === null || state.parts[state.at] !== ')') return null;
  state.at += 1;
  return { latex: `\\left(${inner}\\right)`, inner };
}
