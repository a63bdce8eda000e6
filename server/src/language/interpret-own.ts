import { claimOf } from './claim.ts';
import { type Draft, leaveUnread, recordOnce, replaceFix, report } from './draft.ts';
import { type ParseOptions, parseExpression } from './expression-parser.ts';
import { interpretFormula, isWords } from './interpret-formula.ts';
import { readLetter } from './interpret-record.ts';
import { nameHere } from './interpret-table.ts';
import { type LeftSide, spanOfTokens } from './left-side.ts';
import type { Stated, Subject } from './measurement.ts';
import { isSign, type Statement } from './parser.ts';
import type { Fix } from './problem.ts';
import { readStated } from './stated.ts';
import { tokensText } from './statement-dress.ts';
import { joinSpans, type Span, type Token } from './syntax.ts';
import { findTerm, nearTerms } from './terms.ts';
import { isMadeOfTradeWords, termAmong, termOrSymbol, tradeWords } from './trade-words.ts';
import { commentFix, isTextBehindSign, mayRecord, reportSentence } from './unread-sentence.ts';

type Signed = Exclude<Statement, { readonly kind: 'table' | 'words' }>;
type OwnSide = Extract<LeftSide, { readonly kind: 'own' }>;

const MOST_WORDS = 6;

/**
 * Reads a statement about a quantity of one's own: `D: mean corrected reading of bearing-ball`, `T: 2.63 s, 2.56 s`,
 * `w: any length`, `volume v = pi D^3 / 6`.
 *
 * A name without a symbol that is nearly a term is an error with the term as its fix, never a new quantity.
 */
export function interpretOwn(draft: Draft, statement: Signed, left: OwnSide): void {
  const name = left.symbol ?? left.words;
  if (!isWords(statement.left) && interpretFormula(draft, statement)) return;
  if (!isName(draft, statement, left)) return;
  const given = givenFirst(statement);
  if (given !== null) {
    interpretOwn(draft, given.record, left);
    interpretOwn(draft, given.claim, left);
    return;
  }
  if (statement.kind === 'claim' || statement.right.some(token => isSign(token, '=') || isSign(token, '?'))) {
    const subject: Subject = { kind: 'own', name, row: null, block: null };
    draft.claims.push(claimOf(draft, statement, subject, left.symbol));
    return;
  }
  if (!recordOnce(draft, name, statement.span)) return;
  if (statement.right.length === 0) {
    report(draft, 'unreadable-line', statement.span, `${name} has no value`);
    return;
  }
  const letter = readLetter(draft, statement.right);
  if (letter === 'reported') return;
  if (letter !== null) {
    draft.own.set(name, { kind: 'letter', ...letter, span: statement.span });
    return;
  }
  const values = splitList(statement.right);
  if (values.length > 1) {
    readList(draft, name, values, statement);
    return;
  }
  const stated = readStated(draft, statement.right, { mode: hasName(statement.right) ? 'link' : 'value' });
  if (stated === null) {
    draft.broken.add(name);
    return;
  }
  if (stated.expression.kind === 'name' && stated.expression.key.startsWith('?')) {
    const text = tokensText(statement.right);
    report(draft, 'unreadable-line', stated.span, `${text} is no value, no term and no name of this block`, [
      commentFix(draft, statement.span, left.symbol === null && isTextBehindSign(draft, statement.right)),
    ]);
    return;
  }
  draft.own.set(name, { kind: 'value', given: { stated, span: statement.span, assumed: false } });
}

const VALUE: ParseOptions = { names: { longestName: () => null }, asNames: new Set(), mode: 'value' };

/** `d: 25.4 mm = 1 in` records what stands behind the colon, a value; the rest is claimed of it. Null for all else. */
function givenFirst(statement: Signed): { readonly record: Signed; readonly claim: Signed } | null {
  const at = statement.kind === 'record' ? statement.right.findIndex(token => isSign(token, '=')) : -1;
  const value = statement.right.slice(0, Math.max(at, 0));
  const { isValue, hasUnit, problems } = parseExpression(value, VALUE);
  if (!isValue || !hasUnit || problems.length > 0) return null;
  const sign = statement.right[at]!;
  const span = joinSpans(statement.span, sign.span);
  return {
    record: { ...statement, right: value, span },
    claim: { ...statement, kind: 'claim', sign: sign.span, right: statement.right.slice(at + 1) },
  };
}

function readList(
  draft: Draft,
  name: string,
  values: readonly (readonly Token[])[],
  statement: Signed,
): void {
  // `2.63, 2.56, 2.42 s`: the last one's unit holds for all that have none.
  const last = values[values.length - 1]!;
  const unit = last.filter((token, index) => index > 0 && token.kind !== 'number');
  const read: Stated[] = [];
  for (const value of values) {
    const stated = readStated(draft, value, { mode: 'value', unit });
    if (stated !== null) read.push(stated);
    // A mean or a scatter without it would be that of other values.
    else draft.broken.add(name);
  }
  if (draft.broken.has(name)) return;
  if (read.length > 0) draft.own.set(name, { kind: 'list', values: read, span: statement.span });
}

function splitList(tokens: readonly Token[]): readonly (readonly Token[])[] {
  const parts: Token[][] = [[]];
  let depth = 0;
  for (const [index, token] of tokens.entries()) {
    if (isSign(token, '(')) depth += 1;
    else if (isSign(token, ')')) depth -= 1;
    const next = tokens[index + 1];
    // A decimal comma has no space behind it: `0,5 mm` is one value with a slip of its own.
    const decimal =
      token.text === ',' && !token.spaced && next !== undefined && !next.spaced && next.kind === 'number';
    if (depth === 0 && (isSign(token, ',') || isSign(token, ';')) && !decimal) parts.push([]);
    else parts[parts.length - 1]!.push(token);
  }
  return parts.filter(part => part.length > 0);
}

function hasName(tokens: readonly Token[]): boolean {
  return (
    tokens[0]?.kind !== 'number' ||
    tokens.some(token => isSign(token, '+') || isSign(token, '×') || isSign(token, '/') || isSign(token, '('))
  );
}

function termFixes(words: readonly string[], span: Span): readonly Fix[] {
  const term = termAmong(words);
  return term === null ? [] : [replaceFix(`Write ${term}`, span, term, false)];
}

/** Says that a left side is no name; where only commas keep it from being one, it is offered without them. */
function reportNoName(draft: Draft, statement: Signed, span: Span): void {
  const { leftText, left, right } = statement;
  const plain = left.filter(token => !isSign(token, ','));
  const isListed = plain.length < left.length && isWords(plain) && plain.length <= MOST_WORDS + 1;
  const comment = commentFix(draft, statement.span, isTextBehindSign(draft, right));
  reportSentence(
    draft,
    leftText,
    statement.span,
    isListed
      ? `no comma stands in the name of a quantity; write ${tokensText(plain)}, or if this line is text, make it a comment`
      : `${leftText} is no name of a quantity, so this line cannot be read; if it is text, make it a comment`,
    isListed
      ? [
          replaceFix(`Write ${tokensText(plain)}`, span, tokensText(plain), false),
          { ...comment, sure: false },
        ]
      : [comment],
  );
}

/** Whether the left side can name a quantity; if not, that is said with what was likely meant. */
function isName(draft: Draft, statement: Signed, left: OwnSide): boolean {
  const span = spanOfTokens(statement.left)!;
  if (!isWords(statement.left) || left.words.split(' ').length > MOST_WORDS) {
    reportNoName(draft, statement, span);
    return false;
  }
  if (isTaken(draft, statement, left, span)) return false;
  if (left.symbol !== null && left.words === '') return true;
  return !isNearlyTerm(draft, statement, left, span) && !isOfTheTrade(draft, statement, left, span);
}

/** Whether a name already means something, or may mean two things, which is then reported. */
function isTaken(draft: Draft, { leftText: text }: Signed, { words, symbol }: OwnSide, span: Span): boolean {
  const taken = (message: string, meant: readonly string[]): true => {
    const fixes = meant.map(name => replaceFix(`Write ${name}`, span, name, false));
    report(draft, 'unknown-term', span, message, fixes);
    return true;
  };
  if (words === 'pi' && symbol === null)
    return taken(
      'pi is a number, 3.14159…, so it cannot name a quantity; give the quantity another symbol',
      [],
    );
  const ofMean = /^standard error (?=of .)/i;
  if (symbol === null && ofMean.test(text)) {
    const meant = text.replace(ofMean, 'standard uncertainty ');
    return taken(`${text} is no term; ${meant} is likely meant`, [meant]);
  }
  if (symbol === null || words !== 'uncertainty') return false;
  const kinds = ['absolute error', 'standard uncertainty'].map(kind => `${kind} of ${symbol}`);
  return taken(`${text} leaves open which one is meant; write ${kinds.join(' or ')}`, kinds);
}

/** Whether a name is a term but for a letter or two, which is then reported. */
function isNearlyTerm(
  draft: Draft,
  { leftText: text }: Signed,
  { words, symbol }: OwnSide,
  span: Span,
): boolean {
  const [first, ...near] = symbol === null ? nearTerms(words) : [];
  if (first === undefined || findTerm(words) !== null) return false;
  const others = near.slice(0, 2).filter(other => other.term !== first.term);
  leaveUnread(draft, ...[first, ...others].map(({ term }) => nameHere(draft, term)));
  report(
    draft,
    'unknown-term',
    span,
    `${text} is no term; ${first.name} is likely meant`,
    [first, ...others].map((other, index) =>
      replaceFix(`Write ${other.name}`, span, other.name, index === 0 && others.length === 0 && first.sure),
    ),
  );
  return true;
}

/** Whether a name is put together from words of the trade, which is then reported. */
function isOfTheTrade(draft: Draft, statement: Signed, { words, symbol }: OwnSide, span: Span): boolean {
  const trade = tradeWords(words, symbol);
  if (!isMadeOfTradeWords(trade)) return false;
  draft.sentences.push({ span: statement.span, may: mayRecord(draft, words) });
  report(
    draft,
    'unknown-term',
    span,
    `${statement.leftText} is made of words of the trade, but it is no term; ${termOrSymbol(trade)}`,
    termFixes(trade, span),
  );
  return true;
}
