import { readBareOption } from './bare-choice.ts';
import { asksOnly, claimOf, readLinks } from './claim.ts';
import { type Draft, leaveUnread, recordOnce, replaceFix, report } from './draft.ts';
import { interpretChange } from './interpret-change.ts';
import { interpretClosed } from './interpret-closed.ts';
import { interpretOwn } from './interpret-own.ts';
import { interpretAnswer, interpretFind, interpretOption, splitOptions } from './interpret-question.ts';
import { interpretReading, isVernierConstant } from './interpret-reading.ts';
import { interpretRecord } from './interpret-record.ts';
import { interpretScale, withDivisionLetters } from './interpret-scale.ts';
import { screwTerm } from './interpret-table.ts';
import { type LeftSide, spanOfTokens } from './left-side.ts';
import type { Link, Subject } from './measurement.ts';
import { mend } from './mend.ts';
import { resolveName, subjectOfTerm } from './names.ts';
import { oneKeyAway } from './one-key.ts';
import { oneKeyWords } from './one-key-words.ts';
import { isSign, type Statement, tokensSpan } from './parser.ts';
import { withNone } from './sign-words.ts';
import { readStated, reportUnknownWords } from './stated.ts';
import { tokensText, withoutNumber } from './statement-dress.ts';
import type { Token } from './syntax.ts';
import type { ComputedTerm, DivisionTerm, ObservableTerm, RecordTerm, ScaleTerm } from './term-names.ts';
import type { Term } from './terms.ts';
import { reportUnknownReference, restOfReference } from './unknown-reference.ts';
import { mayRecord } from './unread-sentence.ts';

type Plain = Exclude<Statement, { readonly kind: 'table' }>;
type Signed = Exclude<Plain, { readonly kind: 'words' }>;

/** Reads one statement into the draft: a colon records, an equals sign claims. */
export function interpretStatement(draft: Draft, statement: Plain): void {
  const choice = draft.choices.get(statement);
  if (choice !== undefined) {
    interpretOption(draft, choice.letter, choice.value, statement.span);
    return;
  }
  if (statement.kind === 'words') {
    interpretWords(draft, withoutNumber(statement.tokens));
    return;
  }
  const left = statement.leftSide;
  if (oneKeyAway(draft, statement, left)) return;
  switch (left.kind) {
    case 'none':
      draft.sentences.push({ span: statement.span, may: mayRecord(draft, tokensText(statement.right)) });
      report(
        draft,
        'unreadable-line',
        statement.span,
        `nothing stands before the ${statement.kind === 'record' ? 'colon' : 'equals sign'}`,
      );
      return;
    case 'option':
      interpretOption(draft, left.letter, statement.right, statement.span);
      return;
    case 'multiple':
      interpretMultiple(draft, statement, left.count, left.name);
      return;
    case 'divisions':
      interpretDivisions(draft, statement, left.count, left.division);
      return;
    case 'reference':
      interpretReference(draft, statement, left.text, left.symbol);
      return;
    case 'own':
      if (!interpretChange(draft, statement, left.symbol)) interpretOwn(draft, statement, left);
      return;
    case 'term':
      interpretTerm(draft, statement, left);
  }
}

/** A line without a sign: a choice, several of them, or a sentence. */
function interpretWords(draft: Draft, tokens: readonly Token[]): void {
  const span = tokensSpan(tokens);
  const option = readBareOption(tokens);
  const several = splitOptions(tokens);
  if (several !== null) mend(draft, span, 'each choice stands on a line of its own', several.join('\n'));
  else if (option !== null) interpretOption(draft, option.letter, option.value, span);
  else if (isLoneLetter(draft, tokens)) interpretOption(draft, tokens[0]!.text.toUpperCase(), [], span);
  else oneKeyWords(draft, tokens, span);
}

/** `C.` among the choices: one that nobody has filled yet. */
function isLoneLetter({ options, find }: Draft, tokens: readonly Token[]): boolean {
  return tokens.length === 1 && (options.length > 0 || find !== null) && /^[A-Ha-h]$/.test(tokens[0]!.text);
}

function interpretTerm(
  draft: Draft,
  statement: Signed,
  left: Extract<LeftSide, { readonly kind: 'term' }>,
): void {
  const { term } = left;
  const ownName = draft.names.here.own.get(statement.leftText);
  if (ownName !== undefined) {
    interpretOwn(draft, statement, { kind: 'own', words: '', symbol: ownName });
    return;
  }
  switch (term.kind) {
    case 'record':
      recordTerm(draft, statement, term);
      return;
    case 'scale':
      mendSign(draft, statement);
      interpretScale(draft, scaleTerm(draft, term.name as ScaleTerm), statement.right, statement.span);
      return;
    case 'division':
      interpretDivisions(draft, statement, [], term.name as DivisionTerm);
      return;
    case 'observable':
      observableTerm(draft, statement, screwTerm(draft, term.name as ObservableTerm));
      return;
    case 'computed':
      computedTerm(draft, withNone(statement, term), term, left.symbol);
      return;
    case 'statistic':
      if (left.symbol !== null && draft.names.here.own.has(left.symbol)) {
        interpretReference(draft, statement, `${term.name} of ${left.symbol}`, null);
        return;
      }
      report(
        draft,
        'undetermined',
        spanOfTokens(statement.left)!,
        `the ${term.name} of what? write ${term.name} of and the quantity's name`,
      );
  }
}

/** On a screw without a vernier the main scale is the linear one. */
function scaleTerm(draft: Draft, scale: ScaleTerm): ScaleTerm {
  return draft.isScrew && scale === 'main scale' ? 'linear scale' : scale;
}

function recordTerm(draft: Draft, statement: Signed, term: Term): void {
  switch (term.name as RecordTerm) {
    case 'find':
      interpretFind(draft, statement.right, statement.span);
      return;
    case 'answer':
      interpretAnswer(draft, statement.right, statement.span);
      return;
    default:
      mendSign(draft, statement);
      interpretRecord(draft, term.name as RecordTerm, statement.right, statement.span);
  }
}

/** A record typed with an equals sign is read; one key writes the colon. */
function mendSign(draft: Draft, statement: Signed): void {
  if (statement.kind === 'record') return;
  report(
    draft,
    'not-plain',
    statement.sign,
    `${statement.leftText} is a record, so a colon stands behind it`,
    [replaceFix('Write a colon', statement.sign, ':', true)],
  );
}

function observableTerm(draft: Draft, statement: Signed, term: ObservableTerm): void {
  if (term === 'closed') {
    interpretClosed(draft, statement.right, statement.span);
    return;
  }
  if (asksOnly(statement.right)) {
    draft.claims.push(claimOf(draft, statement, { kind: 'term', term, row: null, block: null }, null));
    return;
  }
  const chain = statement.right.some(token => isSign(token, '='));
  if (chain) {
    draft.claims.push(claimOf(draft, statement, { kind: 'term', term, row: null, block: null }, null));
    return;
  }
  if (isVernierConstant(term, statement.right)) {
    interpretReading(draft, term, statement.right, statement.span);
    return;
  }
  if (!recordOnce(draft, term, statement.span)) return;
  const reading = interpretReading(draft, term, statement.right, statement.span);
  if (reading === null) {
    // A statement that is not what it says records nothing.
    draft.recorded.delete(term);
    leaveUnread(draft, term);
    return;
  }
  draft.readings.set(term, reading);
  if (statement.kind === 'claim') {
    draft.typedAsClaims.push(claimOf(draft, statement, { kind: 'term', term, row: null, block: null }, null));
  }
}

function computedTerm(draft: Draft, statement: Signed, term: Term, symbol: string | null): void {
  const subject = subjectOfTerm(term, null, null)!;
  const asks = statement.right.some(token => isSign(token, '?'));
  if (statement.kind === 'claim' || asks || statement.right.some(token => isSign(token, '='))) {
    draft.claims.push(claimOf(draft, statement, subject, symbol));
    return;
  }
  if (!recordOnce(draft, term.name, statement.span)) return;
  const stated = readStated(draft, statement.right, { mode: 'value' });
  if (stated !== null)
    draft.givens.set(term.name as ComputedTerm, { stated, span: statement.span, assumed: false });
  else leaveUnread(draft, term.name);
  if (stated === null && statement.right.length === 0)
    report(draft, 'unreadable-line', statement.span, `the ${term.name} has no value`);
}

/** `10 VSD = 9 MSD`, `MSD: 1 mm`: with a colon a record of the scales, with an equals sign a claim about them. */
function interpretDivisions(
  draft: Draft,
  typed: Signed,
  count: readonly Token[],
  division: DivisionTerm,
): void {
  const letter = typed.left[typed.left.length - 1]!.text;
  if (count.length > 0 && draft.names.here.own.get(letter) === letter) {
    interpretMultiple(draft, typed, count, letter);
    return;
  }
  const lettered = (tokens: readonly Token[]): readonly Token[] => withDivisionLetters(draft, tokens);
  const statement = { ...typed, left: lettered(typed.left), right: lettered(typed.right) };
  const term = draft.isScrew && division === 'main scale division' ? 'linear scale division' : division;
  const times = count.length === 0 ? null : readStated(draft, count, { mode: 'link' });
  if (count.length > 0 && times === null) {
    leaveUnread(draft, term);
    return;
  }
  const subject: Subject = { kind: 'division', division: term, block: null };
  if (statement.kind === 'claim') {
    const claim = claimOf(draft, statement, subject, null);
    const links = claim.links.map(link => readDivisionLink(draft, link));
    if (links.some(isBroken)) leaveUnread(draft, term);
    draft.claims.push({ ...claim, links, times: times?.expression ?? null });
    return;
  }
  const own = readStated(draft, statement.left, { mode: 'link' });
  const links = readLinks(draft, statement.right, statement.sign).map(link => readDivisionLink(draft, link));
  if (own === null || links.some(isBroken)) leaveUnread(draft, term);
  const sides = links.flatMap(link => (link.content.kind === 'stated' ? [link.content.stated] : []));
  if (own !== null && sides.length > 0)
    draft.scales.push({ scale: term, sides: [own, ...sides], span: statement.span });
}

/** A link about divisions; one with a word that stands for nothing is broken, for nothing else could say what it is. */
function readDivisionLink(draft: Draft, link: Link): Link {
  const { content, span } = link;
  if (content.kind !== 'stated' || !reportUnknownWords(draft, content.stated.spans)) return link;
  return { content: { kind: 'broken' }, span };
}

function isBroken({ content }: Link): boolean {
  return content.kind === 'broken';
}

/** `2A = 120°`: a multiple of a quantity of one's own. */
function interpretMultiple(draft: Draft, statement: Signed, count: readonly Token[], name: string): void {
  const times = readStated(draft, count, { mode: 'link' });
  if (times === null) return;
  const subject: Subject = { kind: 'own', name, row: null, block: null };
  draft.claims.push({ ...claimOf(draft, statement, subject, name), times: times.expression });
}

/** `percentage error of rho = 1.4 %`, `observed reading of dish = 2.63 mm`. */
function interpretReference(draft: Draft, statement: Signed, text: string, symbol: string | null): void {
  const span = spanOfTokens(statement.left)!;
  const from = / from (?=[^ ])/.exec(text);
  const subject =
    (from === null ? null : differenceFrom(draft, statement.left)) ?? resolveName(text, draft.names);
  if (subject === null) {
    reportUnknownReference(draft, text, restOfReference(text), span);
    return;
  }
  if (
    statement.kind === 'record' &&
    !statement.right.some(token => isSign(token, '=') || isSign(token, '?'))
  ) {
    report(
      draft,
      'not-plain',
      statement.sign,
      `the ${text} is worked out here, so an equals sign stands behind it`,
      [replaceFix('Write an equals sign', statement.sign, ' =', true)],
    );
  }
  draft.claims.push(claimOf(draft, statement, subject, symbol));
}

/** `percentage difference of g from 9.81 m/s^2`. */
function differenceFrom(draft: Draft, left: readonly Token[]): Subject | null {
  const at = left.findIndex(token => token.kind === 'word' && token.text.toLowerCase() === 'from');
  if (at === -1) return null;
  const subject = resolveName(tokensText(left.slice(0, at)), draft.names);
  if (subject?.kind !== 'statistic' || subject.statistic !== 'percentage difference') return null;
  const stated = readStated(draft, left.slice(at + 1), { mode: 'link' });
  return stated === null ? null : { ...subject, from: stated.expression };
}
