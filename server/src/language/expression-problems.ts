import { bracketing, removing } from './expression-fixes.ts';
import { functionNamed } from './function-words.ts';
import {
  brief,
  isOperator,
  MOST_TOKENS,
  type ParserState,
  type Part,
  spanOfTokens,
  textOfTokens,
} from './parser-state.ts';
import type { Fix, Problem } from './problem.ts';
import type { Span, Token } from './syntax.ts';

/**
 * `a / b c`: whether c is divided by or divides is for the writer to say. `split` is the token behind b.
 *
 *     > | pi D^2 / 4 l
 *         ^^^^^^^^^^      (pi D^2 / 4) l, or
 *                  ^^^   pi D^2 / (4 l)
 */
export function dividedProduct(state: ParserState, left: Part, right: Part, split: number): Problem {
  const { tokens } = state;
  const text = (from: number, to: number) => brief(textOfTokens(tokens, from, to));
  const gap = (index: number) => (tokens[index]?.spaced ? ' ' : '');
  const above = `(${text(left.from, split)})${gap(split)}${text(split, right.to)}`;
  const below = `${text(left.from, right.from)}${gap(right.from)}(${text(right.from, right.to)})`;
  return {
    rule: 'ambiguous-expression',
    span: spanOfTokens(tokens, right.from, right.to),
    message: `this may be ${above} or ${below}, so put the brackets where they belong`,
    fixes: [
      bracketing(`Write ${above}`, startOf(tokens, left.from), endOf(tokens, split)),
      bracketing(`Write ${below}`, startOf(tokens, right.from), endOf(tokens, right.to)),
    ],
  };
}

/** `sin 2θ`, `√2 x`, `sin θ^2`: how far a function without brackets reaches; `name` is its token. */
export function doubtfulReach(state: ParserState, name: number, argument: Part): Problem {
  const { tokens } = state;
  const to = reachEnd(tokens, argument.to);
  const called = brief(textOfTokens(tokens, name, argument.from));
  const all = brief(textOfTokens(tokens, argument.from, to));
  const short = brief(textOfTokens(tokens, argument.from, argument.to));
  const rest = brief(textOfTokens(tokens, argument.to, to));
  const far = `${called}(${all})`;
  const near = `${called}(${short})${rest.startsWith('^') ? '' : ' '}${rest}`;
  const start = startOf(tokens, argument.from);
  return {
    rule: 'ambiguous-expression',
    span: spanOfTokens(state.tokens, name, to),
    message: `this may be ${far} or ${near}, so put the brackets where they belong`,
    fixes: [
      bracketing(`Write ${far}`, start, endOf(tokens, to)),
      bracketing(`Write ${near}`, start, endOf(tokens, argument.to)),
    ],
  };
}

/** Where the factors behind a function's argument end: at the next sign, bracket or function. */
function reachEnd(tokens: readonly Token[], at: number): number {
  let depth = 0;
  let to = at;
  for (; to < tokens.length; to += 1) {
    const token = tokens[to] as Token;
    if (isOperator(token, '(')) depth += 1;
    else if (isOperator(token, ')')) depth -= 1;
    else if (depth === 0 && token.kind === 'operator' && token.text !== '^' && token.text !== '√') break;
    else if (depth === 0 && token.kind === 'number' && !isOperator(tokens[to - 1], '^', '-')) break;
    else if (depth === 0 && token.kind === 'word' && functionNamed(token.text) !== null) break;
    if (depth < 0) break;
  }
  return Math.max(to, at + 1);
}

function startOf(tokens: readonly Token[], index: number): number {
  return (tokens[index] as Token).span.start;
}

/** Where the token before `index` ends. */
function endOf(tokens: readonly Token[], index: number): number {
  return (tokens[index - 1] as Token).span.end;
}

/** `2.5 cm^n`: a unit's exponent is a whole number, and a small one. */
export function unitExponent(state: ParserState, at: number): Problem {
  const span = spanOfTokens(state.tokens, at, Math.min(at + 2, state.tokens.length));
  return unreadable(
    span,
    'a unit takes a whole number up to 12 as its exponent, to raise number and unit together put them in brackets',
  );
}

/** What to say about a token that cannot stand where it does. */
export function unexpected(state: ParserState, at: number, wanted: 'value' | 'end'): Problem {
  const { tokens } = state;
  const token = tokens[at];
  if (token === undefined) {
    const last = tokens[tokens.length - 1] as Token;
    return unreadable(last.span, `a value is missing behind ${brief(last.text)}`);
  }
  const { span } = token;
  const text = brief(token.text);
  const isLast = at === tokens.length - 1;
  if (isLast && isOperator(token, '.', ',', ';') && at > 0) {
    return unreadable(span, `nothing follows the sign ${text} here, and a value ends without one`, [
      removing(span, text),
    ]);
  }
  if (isOperator(token, '–')) {
    return unreadable(
      span,
      'a dash between two numbers says a range, but one value is wanted, so write the value that was read',
    );
  }
  if (isOperator(token, ')', ']'))
    return unreadable(span, `this ${text} closes a bracket that was never opened`);
  if (isOperator(token, ',')) {
    return unreadable(
      span,
      'a comma separates values in mean(…) and mod(…) only, and decimals stand after a point',
    );
  }
  if (isOperator(token, '±')) return unreadable(span, 'an error after ± stands once, at the end of a value');
  if (token.kind === 'degree' || token.kind === 'prime' || token.kind === 'percent') {
    return unreadable(span, `${text} needs a number right before it`);
  }
  if (token.kind === 'superscript' || isOperator(token, '^')) {
    return unreadable(span, 'an exponent needs a value right before it');
  }
  if (wanted === 'value') return unreadable(span, `a value is wanted where ${text} stands`);
  return unreadable(span, `${text} cannot stand here in a value or a formula`);
}

export function tooManyTokens(span: Span): Problem {
  return {
    rule: 'limit',
    span,
    message: `one link holds at most ${MOST_TOKENS} numbers, words and signs, so put this into several lines`,
    fixes: [],
  };
}

export function unreadable(span: Span, message: string, fixes: readonly Fix[] = []): Problem {
  return { rule: 'unreadable-line', span, message, fixes };
}
