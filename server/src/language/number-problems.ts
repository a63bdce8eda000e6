import { bracketing, inserting, replacing } from './expression-fixes.ts';
import { functionNamed } from './function-words.ts';
import {
  brief,
  isOperator,
  LARGEST_EXPONENT,
  literalText,
  MOST_DIGITS,
  type NameTable,
  type ParserState,
  type Part,
  spanOfTokens,
  textOfTokens,
  type UnitUse,
} from './parser-state.ts';
import type { Fix, Problem } from './problem.ts';
import { type Span, spanOf, type Token } from './syntax.ts';
import { unitOf, wholeExponent } from './unit-parser.ts';

/**
 * What is wrong with the numbers of a link, before anything is read: a comma for the point, a doubtful dot,
 * an x right between digits, digits without end. All of it at once, so that all can be mended at once.
 */
export function numberProblems(tokens: readonly Token[], names: NameTable): Problem[] {
  const problems: Problem[] = [];
  const brackets: boolean[] = [];
  let from = 0;
  for (let index = 0; index < tokens.length; index++) {
    const token = tokens[index] as Token;
    if (isOperator(token, '(')) brackets.push(takesSeveral(tokens[index - 1]));
    else if (isOperator(token, ')')) brackets.pop();
    if (token.kind !== 'number' || index < from) continue;
    const problem = sizeProblem(tokens, index) ?? signProblem(tokens, index, names, brackets.at(-1) ?? false);
    if (problem === null) continue;
    problems.push(problem);
    while (from < tokens.length && (tokens[from] as Token).span.start < problem.span.end) from += 1;
  }
  return problems;
}

function takesSeveral(token: Token | undefined): boolean {
  const name = token?.kind === 'word' ? functionNamed(token.text) : null;
  return name === 'mean' || name === 'mod';
}

const PLAIN_LENGTH = 20;

/** More digits, or a higher power of ten, than anything in a note can need. */
function sizeProblem(tokens: readonly Token[], at: number): Problem | null {
  const number = tokens[at] as Token;
  // Most numbers are short, and no power of ten.
  if (number.text.length <= PLAIN_LENGTH && number.text !== '10' && !number.text.includes('e')) return null;
  const [digits = '', exponent = '0'] = number.text.split('e');
  if (digits.replace('.', '').length > MOST_DIGITS) return tooLong(number.span);
  if (exponent.length > 4 || Math.abs(Number(exponent)) > LARGEST_EXPONENT) return tooHigh(number.span);
  const power = number.text === '10' ? wholeExponent(tokens, at + 1) : null;
  const isHigh = power !== null && Math.abs(power.value) > LARGEST_EXPONENT;
  return isHigh ? tooHigh(spanOfTokens(tokens, at, power.to)) : null;
}

/** What follows a number without a space, where only one thing may. */
function signProblem(
  tokens: readonly Token[],
  at: number,
  names: NameTable,
  separates: boolean,
): Problem | null {
  const after = tokens[at + 1];
  if (after === undefined) return null;
  // What stands apart is no part of the number, but for further digits and a letter x, behind its unit too.
  if (after.spaced && after.kind !== 'number' && !beginsWithX(after) && !beginsWithX(tokens[at + 2]))
    return null;
  const number = tokens[at] as Token;
  const sign = after;
  const next = tokens[at + 2];
  const closing = tokens[at + 3];
  if (isGroup(number, sign) && isOperator(next, '/') && closing?.kind === 'number')
    return doubtfulGroup(tokens, at);
  const times =
    timesProblem(tokens, at + 1, names) ?? (isUnit(sign) ? timesProblem(tokens, at + 2, names) : null);
  if (sign.spaced || times !== null) return times;
  const digit = next?.kind === 'number' && /^[0-9]{1,2}$/.test(next.text) && isOperator(closing, ')');
  if (isOperator(sign, '(') && digit && number.text.includes('.')) return doubtfulBracket(tokens, at);
  if (next?.kind === 'number' && !next.spaced) {
    const isComma = isOperator(sign, ',') && !(separates && separatesValues(tokens, number, next));
    if (isComma) return decimalComma(tokens, at);
    if (isOperator(sign, '·')) return doubtfulDot(tokens, at);
  }
  return null;
}

function beginsWithX(token: Token | undefined): boolean {
  return token !== undefined && (token.text.startsWith('x') || token.text.startsWith('X'));
}

function isUnit(token: Token): boolean {
  return token.kind === 'word' && unitOf(token.text) !== null;
}

/** `7 x0.05`, `7x 0.05`, `0.05 mm x7`, where nothing is called x. */
function timesProblem(tokens: readonly Token[], at: number, names: NameTable): Problem | null {
  const word = tokens[at];
  if (word?.kind !== 'word' || !/^[xX][0-9]{0,20}$/.test(word.text)) return null;
  const next = tokens[at + 1];
  if (word.text.length === 1 && (next?.kind !== 'number' || (word.spaced && next.spaced))) return null;
  return names.longestName(tokens, at) === null ? letterForTimes(word) : null;
}

/**
 * Whether a comma in the brackets of `mean(…)` or `mod(…)` stands between two values. Where other commas
 * have a space behind them and this one joins two whole numbers (`mean(2,5, 3,5)`), it is one for decimals.
 */
function separatesValues(tokens: readonly Token[], left: Token, right: Token): boolean {
  if (left.text.includes('.') || right.text.includes('.')) return true;
  return !tokens.some((token, index) => isOperator(token, ',') && tokens[index + 1]?.spaced);
}

/** `0,5` is `0.5`; but `1,195` may be grouped by thousands, so both are offered. */
function decimalComma(tokens: readonly Token[], at: number): Problem {
  const pieces = [(tokens[at] as Token).text];
  let to = at + 1;
  while (isOperator(tokens[to], ',') && tokens[to + 1]?.kind === 'number' && pieces.length < 20) {
    if (tokens[to]?.spaced || tokens[to + 1]?.spaced) break;
    pieces.push((tokens[to + 1] as Token).text);
    to += 2;
  }
  const span = spanOfTokens(tokens, at, to);
  const typed = pieces.join(',');
  const grouped = /^[1-9][0-9]{0,2}(,[0-9]{3})+$/.test(typed);
  const decimal = pieces.length === 2 && /^[0-9]+,[0-9]+(e.*)?$/.test(typed);
  const meanings = [...(decimal ? [pieces.join('.')] : []), ...(grouped ? [pieces.join('')] : [])];
  const right = meanings.length === 0 ? 'one number with a point' : meanings.join(' or ');
  return {
    rule: 'unreadable-line',
    span,
    message: `${typed} has a comma, but decimals stand after a point, so write ${right}`,
    fixes: meanings.map(meant => replacing(span, meant, meanings.length === 1)),
  };
}

/** Whether two numbers may be one, its digits grouped by three. */
function isGroup(left: Token, right: Token): boolean {
  return right.kind === 'number' && /^[1-9][0-9]{0,2}$/.test(left.text) && /^[0-9]{3}$/.test(right.text);
}

/** `2 375/1000`: a mixed number, or 2375 over 1000. */
function doubtfulGroup(tokens: readonly Token[], at: number): Problem {
  const [whole, upper, , lower] = tokens.slice(at, at + 4).map(token => brief(token.text));
  const span = spanOfTokens(tokens, at, at + 4);
  const mixed = `(${whole} + ${upper}/${lower})`;
  const grouped = `${whole}${upper}/${lower}`;
  return {
    rule: 'ambiguous-expression',
    span,
    message: `${whole} ${upper}/${lower} may be the mixed number ${mixed} or the fraction ${grouped}, write the one that is meant`,
    fixes: [replacing(span, mixed), replacing(span, grouped)],
  };
}

function doubtfulDot(tokens: readonly Token[], at: number): Problem {
  const left = (tokens[at] as Token).text;
  const right = (tokens[at + 2] as Token).text;
  const span = spanOfTokens(tokens, at, at + 3);
  const isPoint = /^[0-9]+$/.test(left) && /^[0-9]+$/.test(right);
  const product = `${left} × ${right}`;
  const fixes = [...(isPoint ? [replacing(span, `${left}.${right}`)] : []), replacing(span, product)];
  const meanings = isPoint
    ? `the decimal ${left}.${right} or the product ${product}`
    : `the product ${product}`;
  return {
    rule: 'ambiguous-expression',
    span,
    message: `${left}·${right} may be ${meanings}, write the one that is meant`,
    fixes,
  };
}

/** `3.58(2)`: a product, or the error in the last digit as tables print it. */
function doubtfulBracket(tokens: readonly Token[], at: number): Problem {
  const number = (tokens[at] as Token).text;
  const digits = (tokens[at + 2] as Token).text;
  const span = spanOfTokens(tokens, at, at + 4);
  const decimals = number.length - number.indexOf('.') - 1;
  const product = `${number} × ${digits}`;
  const hasError = digits.length <= decimals && !number.includes('e');
  const withError = `${number} ± 0.${digits.padStart(decimals, '0')}`;
  const meanings = hasError
    ? `${withError} or the product ${product}`
    : `a value with its error or ${product}`;
  return {
    rule: 'ambiguous-expression',
    span,
    message: `${number}(${digits}) may be ${meanings}, write the one that is meant`,
    fixes: [...(hasError ? [replacing(span, withError)] : []), replacing(span, product)],
  };
}

/** `27x0.01`, where nothing is called x0. */
function letterForTimes(word: Token): Problem {
  const rest = word.text.slice(1);
  return {
    rule: 'unreadable-line',
    span: word.span,
    message: `nothing here is called ${word.text}, and a letter x is no sign, so for “times” write × or *`,
    fixes: [replacing(word.span, `${word.spaced ? '' : ' '}×${rest === '' ? '' : ` ${rest}`}`, true)],
  };
}

/** A number right behind another value: no sign says what they have to do with each other. */
export function numberBeside(state: ParserState, left: Part): Problem {
  const { tokens } = state;
  const at = left.to;
  const to = numberEnd(tokens, at);
  const before = brief(literalText(tokens, left.from, at));
  const after = brief(literalText(tokens, at, to));
  const between = spanOf((tokens[at - 1] as Token).span.end, (tokens[at] as Token).span.start);
  const put = (sign: string): Fix => inserting(between, sign, `Write ${before}${sign}${after}`);
  const { start, end } = (tokens[left.from] as Token).span;
  const isBare = left.to - left.from === 1 && end - start === before.length;
  const hasUnit = left.expression.kind === 'literal' && left.expression.quantity.unit !== null;
  const joins = isBare && /^[0-9.]+$/.test(before) && /^[0-9]+( |$)/.test(after);
  return {
    rule: 'ambiguous-expression',
    span: spanOfTokens(tokens, at, to),
    message: `${after} stands right behind ${before} without a sign, so nobody can tell what is to be done with them`,
    fixes: [...(hasUnit ? [put(' + ')] : []), put(' × '), ...(joins ? [put('')] : [])],
  };
}

/** Where a number that begins at a token ends, with the unit behind it. */
function numberEnd(tokens: readonly Token[], at: number): number {
  const next = tokens[at + 1];
  if (next?.kind === 'word') return unitOf(next.text) === null ? at + 1 : at + 2;
  return next?.kind === 'prime' || next?.kind === 'degree' || next?.kind === 'percent' ? at + 2 : at + 1;
}

/** `2 3/8 D`: a mixed number times D, or something with D below the line. */
export function mixedBeside(state: ParserState, left: Part): Problem {
  const { tokens } = state;
  const number = textOfTokens(tokens, left.from, left.to);
  const next = brief(textOfTokens(tokens, left.to, left.to + 1));
  const { start } = (tokens[left.from] as Token).span;
  const { end } = (tokens[left.to - 1] as Token).span;
  return {
    rule: 'ambiguous-expression',
    span: spanOfTokens(tokens, left.from, left.to + 1),
    message: `${number} ${next} may be (${number}) ${next} or a division by ${next} as well, so put the brackets where they belong`,
    fixes: [bracketing(`Write (${number}) ${next}`, start, end)],
  };
}

/** `1.06 g ± 0.01`: the value has a unit and its error none. */
export function errorWithoutUnit(span: Span, text: string, use: UnitUse): Problem {
  const unit = use.text;
  const right = unit === null ? null : /^[°′″%]/.test(unit) ? `${text}${unit}` : `${text} ${unit}`;
  return {
    rule: 'missing-unit',
    span,
    message: `the error ${text} has no unit, but the value before it has one${right === null ? '' : `, so it is ${right}`}`,
    fixes: right === null ? [] : [replacing(span, right, true)],
  };
}

export function tooLong(span: Span): Problem {
  return {
    rule: 'limit',
    span,
    message: `this number has more than ${MOST_DIGITS} digits, and no scale shows so many`,
    fixes: [],
  };
}

export function tooHigh(span: Span): Problem {
  return {
    rule: 'limit',
    span,
    message: `powers of ten go from -${LARGEST_EXPONENT} to ${LARGEST_EXPONENT} here, and this one lies beyond`,
    fixes: [],
  };
}
