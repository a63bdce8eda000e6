import { functionNamed } from './function-words.ts';
import { openingOf, splitUnit } from './head-unit.ts';
import { tokensText } from './statement-dress.ts';
import type { Token } from './syntax.ts';
import { findTerm } from './terms.ts';

/** What a formula in the head of a column works out, as far as the trade has it. */
export type HeadFormula =
  | 'observed reading'
  | 'corrected reading'
  | 'vernier scale reading'
  /** `CSR × LC`: what the circular scale adds, for which the trade has no name of its own. */
  | 'circular part';

/** A formula and the name that stands before it, none where it stands alone. */
export interface HeadParts {
  readonly name: readonly Token[];
  readonly formula: readonly Token[];
}

/**
 * Parts the head of a column at its equals sign or before its bracket; null where it holds no formula.
 *
 *     R = LSR + CSR × LC        total reading (LSR + CSR × LC)        n × LC
 *     ^   ^^^^^^^^^^^^^^        ^^^^^^^^^^^^^  ^^^^^^^^^^^^^^         ^^^^^^
 *     name   formula                name           formula          formula
 */
export function headParts(tokens: readonly Token[]): HeadParts | null {
  const sign = tokens.findIndex(token => token.kind === 'operator' && token.text === '=');
  if (sign !== -1) return { name: tokens.slice(0, sign), formula: tokens.slice(sign + 1) };
  const open = openingOf(tokens);
  if (open > 0) {
    const [name, inside] = [tokens.slice(0, open), tokens.slice(open + 1, -1)];
    if (!isFormula(name) && isFormula(inside)) return { name, formula: inside };
  }
  return isFormula(tokens) ? { name: [], formula: tokens } : null;
}

/** Whether something is worked out; the x of `distance x` multiplies nothing. */
function isFormula(tokens: readonly Token[]): boolean {
  return tokens.some(
    (token, index) =>
      isWorking(token) && (token.kind !== 'word' || !isTimes(token.text) || isBetween(tokens, index)),
  );
}

function isTimes(word: string): boolean {
  return /^x$/i.test(word);
}

function isBetween(tokens: readonly Token[], index: number): boolean {
  return 0 < index && index < tokens.length - 1;
}

/** Whether a sign works something out; a hyphen within a word does not. */
function isWorking(token: Token): boolean {
  if (token.kind === 'superscript') return true;
  if (token.kind === 'word') return isFunction(token.text) || (isTimes(token.text) && token.spaced);
  return token.kind === 'operator' && (/^[+×/·^±]$/.test(token.text) || isMinus(token));
}

/** `sin θ` is worked out; `mean d` is a name in words. */
function isFunction(word: string): boolean {
  const named = functionNamed(word);
  return (named !== null && named !== 'mean') || /^(?:log|ln)$/.test(word);
}

function isMinus(token: Token): boolean {
  return token.text === '-' && token.spaced;
}

/** What a formula works out: the parts of a reading added up, a zero error taken off; null for any other. */
export function meaningOf(formula: readonly Token[]): HeadFormula | null {
  const parts = summands(formula)?.map(partOf);
  if (parts === undefined || parts.includes(null)) return null;
  switch (parts.join(' ')) {
    case '+vernier part':
      return 'vernier scale reading';
    case '+circular part':
      return 'circular part';
    case '+mark +vernier part':
    case '+mark +circular part':
      return 'observed reading';
    case '+observed -error':
    case '+observed +correction':
    case '+mark +vernier part -error':
    case '+mark +vernier part +correction':
    case '+mark +circular part -error':
    case '+mark +circular part +correction':
      return 'corrected reading';
    default:
      return null;
  }
}

interface Summand {
  readonly sign: '+' | '-';
  readonly tokens: readonly Token[];
}

/** The parts of a sum; brackets may stand around a part, not around a sum. */
function summands(formula: readonly Token[]): readonly Summand[] | null {
  const parts: { sign: '+' | '-'; tokens: Token[] }[] = [{ sign: '+', tokens: [] }];
  let depth = 0;
  for (const token of formula) {
    if (token.kind === 'operator' && /^[([]$/.test(token.text)) depth += 1;
    if (token.kind === 'operator' && /^[)\]]$/.test(token.text)) depth -= 1;
    const isSign = token.kind === 'operator' && (token.text === '+' || isMinus(token));
    if (isSign && depth > 0) return null;
    if (isSign) parts.push({ sign: token.text as '+' | '-', tokens: [] });
    else parts[parts.length - 1]!.tokens.push(token);
  }
  return parts;
}

function partOf({ sign, tokens }: Summand): string | null {
  const factors = factorsOf(tokens);
  const part = factors.length === 1 ? single(factors[0]!) : product(factors);
  return part === null ? null : sign + part;
}

function factorsOf(tokens: readonly Token[]): readonly string[] {
  const factors: Token[][] = [[]];
  const bare = openingOf(tokens) === 0 ? tokens.slice(1, -1) : tokens;
  for (const token of bare) {
    const isTimes =
      (token.kind === 'operator' && /^[×·]$/.test(token.text)) ||
      (token.kind === 'word' && /^x$/i.test(token.text));
    if (isTimes) factors.push([]);
    else factors[factors.length - 1]!.push(token);
  }
  return factors.map(factor =>
    tokensText(openingOf(factor) === 0 ? factor.slice(1, -1) : splitUnit(factor).name),
  );
}

function single(text: string): string | null {
  switch (findTerm(text)?.name) {
    case 'main scale reading':
    case 'linear scale reading':
      return 'mark';
    case 'vernier scale reading':
      return 'vernier part';
    case 'observed reading':
      return 'observed';
    case 'zero error':
      return 'error';
    case 'zero correction':
      return 'correction';
    default:
      return null;
  }
}

/** A coinciding division and the least count, in either order; beside a division VC is the vernier constant. */
function product(factors: readonly string[]): string | null {
  if (factors.length !== 2) return null;
  const names = factors.map(factor => findTerm(factor)?.name);
  const constant = factors.findIndex(
    factor => findTerm(factor) === findTerm('VC') && /^v\.?\s?c\.?$/i.test(factor),
  );
  const least = names.indexOf('least count');
  const other = least === -1 ? constant : least;
  if (other === -1) return null;
  switch (names[1 - other]) {
    case 'coinciding division':
    // Times the least count it is the number of a line.
    case 'vernier scale reading':
      return 'vernier part';
    case 'circular scale reading':
      return 'circular part';
    default:
      return null;
  }
}
