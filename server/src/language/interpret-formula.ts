import { changeAtEnd } from './changes.ts';
import { claimOf, readLinks } from './claim.ts';
import type { Draft } from './draft.ts';
import { parseExpression } from './expression-parser.ts';
import { isGreekName } from './greek.ts';
import { isSymbol } from './names.ts';
import { isSign, type Statement } from './parser.ts';
import { NO_WORDS, textOfTokens } from './parser-state.ts';
import { spanOf, type Token } from './syntax.ts';

type Signed = Exclude<Statement, { readonly kind: 'table' | 'words' }>;

/** Whether a left side is a name of words: no number, no power and no sign of a formula stands in it. */
export function isWords(left: readonly Token[]): boolean {
  if (isProduct(left)) return false;
  return left.every(
    (token, index) =>
      token.kind === 'word' || isSign(token, '(') || isSign(token, ')') || isHyphen(left, index),
  );
}

/** `π d1`, `m v`, `sin θ`: letters beside each other, or a function of something, and no words; `Δm` is one symbol. */
function isProduct(left: readonly Token[]): boolean {
  const words = left.filter(({ kind }) => kind === 'word');
  if (words.length < 2 || changeAtEnd(left) !== null) return false;
  return (
    words.some(({ text }) => FUNCTIONS.test(text)) ||
    words.every(({ text }) => isLetter(text)) ||
    // Nothing is called π, so what stands beside it is multiplied.
    (words.some(({ text }) => text === 'pi') && words.every(({ text }) => text === 'pi' || isSymbol(text)))
  );
}

/** `d`, `theta`, `d1`, `m_0`: one letter, whatever stands below it. */
function isLetter(text: string): boolean {
  const letter = text.replace(/\d*(?:_\w+)?$/, '');
  return letter.length === 1 || isGreekName(letter);
}

const FUNCTIONS = /^(?:a(?:rc)?)?(?:sin|cos|tan)$|^sqrt$/;

/** `least-count` has a hyphen; between two letters, as in `S-V`, and with a space it is a minus. */
function isHyphen(left: readonly Token[], at: number): boolean {
  const token = left[at]!;
  const isBetweenLetters = left[at - 1]?.text.length === 1 && left[at + 1]?.text.length === 1;
  return isSign(token, '-') && !token.spaced && !isBetweenLetters;
}

/**
 * Reads what is claimed of a formula: `T^2 = 4.04 s^2`, `MSR + n × LC = 2.46 cm`, `sin i / sin r = 1.52`.
 *
 * The formula is the claim's first link, and names what is claimed; no other line can use that name. False, with nothing
 * reported, where the left side is no formula of the block's names.
 */
export function interpretFormula(draft: Draft, typed: Signed): boolean {
  if (typed.kind !== 'claim' || !isFormula(draft, typed.left)) return false;
  const statement = withPerCent(typed);
  const name = textOfTokens(statement.left, 0, statement.left.length);
  const subject = { kind: 'own', name, row: null, block: null } as const;
  const formula = readLinks(draft, statement.left, statement.sign);
  const claim = claimOf(draft, { ...statement, leftText: name }, subject, null);
  draft.claims.push({ ...claim, links: [...formula, ...claim.links] });
  return true;
}

/**
 * `ΔA/A × 100 = 2 × 0.1/20 × 100 = 1 %`: where the value behind a formula times a hundred is in per cent, so is every
 * hundred that ends a link or one of its terms.
 */
function withPerCent(statement: Signed): Signed {
  const { left, right } = statement;
  const [number, percent] = right.slice(-2);
  const isBare = endsInHundred(left);
  const isHundred = isBare || (left.at(-1)?.kind === 'percent' && endsInHundred(left.slice(0, -1)));
  if (number?.kind !== 'number' || percent?.kind !== 'percent' || !isHundred) return statement;
  const links: Token[] = [];
  let [depth, hundreds, others] = [0, 0, 0];
  for (const [index, token] of right.entries()) {
    links.push(token);
    if (isSign(token, '(')) depth += 1;
    else if (isSign(token, ')')) depth -= 1;
    const next = right[index + 1];
    const isEnd = next !== undefined && ['=', '≈', '+', '-'].some(sign => isSign(next, sign));
    if (depth === 0 && isEnd && endsInHundred(right.slice(Math.max(0, index - 1), index + 1))) {
      links.push(percentBehind(token));
      hundreds += 1;
    } else if (token.text === '100') {
      if (next?.kind === 'percent') hundreds += 1;
      else others += 1;
    }
    if (!isSign(token, '=') && !isSign(token, '≈')) continue;
    // A hundred that stands elsewhere may be what makes the link a percentage.
    if (others > 0 && hundreds === 0) return statement;
    [hundreds, others] = [0, 0];
  }
  return { ...statement, left: isBare ? [...left, percentBehind(left.at(-1)!)] : left, right: links };
}

function endsInHundred(tokens: readonly Token[]): boolean {
  const [sign, hundred] = tokens.slice(-2);
  return sign !== undefined && isSign(sign, '×') && hundred?.kind === 'number' && hundred.text === '100';
}

function percentBehind({ span }: Token): Token {
  return { kind: 'percent', text: '%', spaced: true, span: spanOf(span.end, span.end) };
}

function isFormula(draft: Draft, left: readonly Token[]): boolean {
  const parsed = parseExpression(left, { names: draft.table, asNames: NO_WORDS, mode: 'link' });
  if (parsed.expression === null || parsed.problems.length > 0) return false;
  return [...parsed.spans.keys()].some(part => part.kind === 'name' && !part.key.startsWith('?'));
}
