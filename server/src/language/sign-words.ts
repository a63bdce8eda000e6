import { type Draft, leaveUnread, replaceFix, report } from './draft.ts';
import { splitAt } from './interpret-scale.ts';
import type { LeftSide } from './left-side.ts';
import { mend } from './mend.ts';
import { isSign, type Statement } from './parser.ts';
import { tokensText } from './statement-dress.ts';
import type { Token } from './syntax.ts';
import { findTerm, type Term } from './terms.ts';

type Signed = Exclude<Statement, { readonly kind: 'table' | 'words' }>;

/** Whether a word says which sign a value has. */
export function isSignWord(token: Token | undefined): boolean {
  return token?.kind === 'word' && /^(?:negative|minus|positive|plus)$/i.test(token.text);
}

/** `negative zero error = 0.04 cm`, `zero error = negative 0.04 cm`, `zero error: negative, 0.04 cm`. */
export function signInWords(draft: Draft, statement: Signed, left: LeftSide): boolean {
  const { leftText, right } = statement;
  const before =
    /^(negative|positive)\s+(zero error|zero correction)$/i.exec(leftText) ??
    /^(-|\+)\s*(?:ve)?\s*(zero error|zero correction)$/i.exec(leftText);
  if (before !== null) return signed(draft, statement, before[2]!.toLowerCase(), before[1]!, right);
  const [word, ...behind] = right;
  if (!isZero(left) || !isSignWord(word)) return false;
  const value = unbracketed(isBreak(behind[0]) ? behind.slice(1) : behind);
  return beginsNumber(value) && signed(draft, statement, leftText, word!.text, value);
}

/** `zero error = 0.02 cm (negative)`, `zero error: 0.04 cm, negative`. */
export function signBehind(draft: Draft, statement: Signed, left: LeftSide): boolean {
  const { leftText, right } = statement;
  const at = right.findIndex(token => isSign(token, '('));
  const last = right[right.length - 1];
  const word = at < 1 ? '' : tokensText(right.slice(at + 1, -1));
  if (/^(?:negative|positive)$/i.test(word) && last !== undefined && isSign(last, ')')) {
    const value = right.slice(0, at);
    return !value.some(token => isSign(token, '=')) && signed(draft, statement, leftText, word, value);
  }
  const value = right.slice(0, -2);
  if (!isZero(left) || !isSignWord(last) || !isBreak(right[right.length - 2]) || !beginsNumber(value))
    return false;
  return !value.some(token => isSign(token, '=')) && signed(draft, statement, leftText, last!.text, value);
}

function isZero(left: LeftSide): boolean {
  return left.kind === 'term' && left.term.name.startsWith('zero');
}

function isBreak(token: Token | undefined): boolean {
  return token !== undefined && (isSign(token, ',') || isSign(token, ';'));
}

function unbracketed(tokens: readonly Token[]): readonly Token[] {
  const [first, last] = [tokens[0], tokens[tokens.length - 1]];
  const isWhole = first !== undefined && last !== undefined && isSign(first, '(') && isSign(last, ')');
  return isWhole ? tokens.slice(1, -1) : tokens;
}

/** Whether a value begins with its number or its sign, and holds but one. */
function beginsNumber(tokens: readonly Token[]): boolean {
  const [first, second] = tokens;
  const isNumber =
    first?.kind === 'number' ||
    (first !== undefined && /^[-+]$/.test(first.text) && second?.kind === 'number');
  return isNumber && !tokens.some(isBreak);
}

/**
 * The value with the sign that a word says. Where it is written with the other sign nobody knows which of the two is
 * meant, and nothing is taken.
 */
function signed(
  draft: Draft,
  statement: Signed,
  term: string,
  word: string,
  value: readonly Token[],
): boolean {
  const text = tokensText(value).trim();
  const size = text.replace(/^[+−-]\s*/, '');
  // So many divisions are no length; the closed position is what says them.
  if (/\bdiv(?:isions?|s)?\.?$/i.test(size)) return false;
  const says = statement.kind === 'record' ? ':' : ' =';
  const written = size === text ? null : /^\+/.test(text) ? '+' : '-';
  const sign = /^(?:negative|minus|-)$/i.test(word) ? '-' : '+';
  const chained = value.some(token => isSign(token, '='));
  if (written !== null && written !== sign && !chained) {
    const ways = [sign, written].map(each => `${term}${says} ${each}${size}`);
    report(
      draft,
      'ambiguous-expression',
      statement.span,
      `${text} has one sign and is called ${/^\W$/.test(word) ? word : word.toLowerCase()}; write the one sign that it has`,
      ways.map(way => replaceFix(`Write ${way}`, statement.span, way, false)),
    );
    const broken = findTerm(term)?.name;
    if (broken !== undefined) leaveUnread(draft, broken);
    return true;
  }
  mend(
    draft,
    statement.span,
    `the sign of a ${findTerm(term)?.name ?? term} belongs to its value`,
    `${term}${says} ${chained ? signedLinks(value, sign) : sign + size}`,
  );
  return true;
}

/** Every link with the sign; as they stand where the last one is written with its own. */
function signedLinks(value: readonly Token[], sign: '+' | '-'): string {
  const links = splitAt(value);
  const [last] = links[links.length - 1] ?? [];
  if (sign === '+' || last === undefined || /^[-+?]$/.test(last.text)) return tokensText(value);
  return links
    .map(link => {
      const text = tokensText(link);
      return link.some(({ kind }) => kind === 'operator') ? `-(${text})` : `-${text}`;
    })
    .join(' = ');
}

/** `zero error = none` says nought as `nil` does. */
export function withNone(statement: Signed, term: Term): Signed {
  const [only, ...others] = statement.right;
  const isNone = only?.kind === 'word' && /^none$/i.test(only.text) && others.length === 0;
  if (!isNone || !term.name.startsWith('zero')) return statement;
  return { ...statement, right: [{ ...only, text: 'nil' }] };
}
