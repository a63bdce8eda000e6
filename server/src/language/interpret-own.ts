import { claimOf } from './claim.ts';
import { type Draft, leaveUnread, recordOnce, replaceFix, report } from './draft.ts';
import { interpretFormula, isWords } from './interpret-formula.ts';
import { readLetter } from './interpret-record.ts';
import { nameHere } from './interpret-table.ts';
import { type LeftSide, spanOfTokens } from './left-side.ts';
import type { Stated, Subject } from './measurement.ts';
import { isSign, type Statement } from './parser.ts';
import type { Fix } from './problem.ts';
import { readStated } from './stated.ts';
import { tokensText } from './statement-dress.ts';
import type { Span, Token } from './syntax.ts';
import { findTerm, nearTerms } from './terms.ts';
import { isMadeOfTradeWords, termAmong, termOrSymbol, tradeWords } from './trade-words.ts';
import { commentFix, isTextBehindSign, mayRecord, reportSentence } from './unread-sentence.ts';

type Signed = Exclude<Statement, { readonly kind: 'table' | 'words' }>;

const MOST_WORDS = 6;

/**
 * Reads a statement about a quantity of one's own: `D: mean corrected reading of bearing-ball`, `T: 2.63 s, 2.56 s`,
 * `w: any length`, `volume v = pi D^3 / 6`.
 *
 * A name without a symbol that is nearly a term is an error with the term as its fix, never a new quantity.
 */
export function interpretOwn(
  draft: Draft,
  statement: Signed,
  left: Extract<LeftSide, { readonly kind: 'own' }>,
): void {
  const name = left.symbol ?? left.words;
  if (!isWords(statement.left) && interpretFormula(draft, statement)) return;
  if (!isName(draft, statement, left)) return;
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
function isName(draft: Draft, statement: Signed, left: Extract<LeftSide, { readonly kind: 'own' }>): boolean {
  const span = spanOfTokens(statement.left)!;
  const text = statement.leftText;
  const words = left.words === '' ? [] : left.words.split(' ');
  if (!isWords(statement.left) || words.length > MOST_WORDS) {
    reportNoName(draft, statement, span);
    return false;
  }
  if (left.words === 'pi' && left.symbol === null) {
    report(
      draft,
      'unknown-term',
      span,
      'pi is a number, 3.14159…, so it cannot name a quantity; give the quantity another symbol',
    );
    return false;
  }
  const ofMean = /^standard error (?=of .)/i;
  if (left.symbol === null && ofMean.test(text)) {
    const meant = text.replace(ofMean, 'standard uncertainty ');
    report(draft, 'unknown-term', span, `${text} is no term; ${meant} is likely meant`, [
      replaceFix(`Write ${meant}`, span, meant, false),
    ]);
    return false;
  }
  if (left.symbol !== null && left.words === 'uncertainty') {
    const kinds = ['absolute error', 'standard uncertainty'].map(kind => `${kind} of ${left.symbol}`);
    report(
      draft,
      'unknown-term',
      span,
      `${text} leaves open which one is meant; write ${kinds.join(' or ')}`,
      kinds.map(kind => replaceFix(`Write ${kind}`, span, kind, false)),
    );
    return false;
  }
  if (left.symbol !== null && left.words === '') return true;
  if (left.symbol === null || words.length > 0) {
    const near = left.symbol === null ? nearTerms(left.words) : [];
    const first = near[0];
    if (first !== undefined && findTerm(left.words) === null) {
      const others = near.slice(1, 3).filter(other => other.term !== first.term);
      leaveUnread(draft, ...[first, ...others].map(({ term }) => nameHere(draft, term)));
      report(
        draft,
        'unknown-term',
        span,
        `${text} is no term; ${first.name} is likely meant`,
        [first, ...others].map((other, index) =>
          replaceFix(
            `Write ${other.name}`,
            span,
            other.name,
            index === 0 && others.length === 0 && first.sure,
          ),
        ),
      );
      return false;
    }
    const trade = tradeWords(left.words, left.symbol);
    if (isMadeOfTradeWords(trade)) {
      draft.sentences.push({ span: statement.span, may: mayRecord(draft, left.words) });
      report(
        draft,
        'unknown-term',
        span,
        `${text} is made of words of the trade, but it is no term; ${termOrSymbol(trade)}`,
        termFixes(trade, span),
      );
      return false;
    }
  }
  return true;
}
