import type { Expression } from '../engine/expression.ts';
import { type Draft, leaveUnread, recordOnce, replaceFix, report } from './draft.ts';
import { commentStart } from './lexer.ts';
import type { ErrorRule, LetterKind, Stated } from './measurement.ts';
import { blockKey } from './names.ts';
import { isSign, tokensSpan } from './parser.ts';
import { RULE_NAMES, type RuleName } from './rule-names.ts';
import { readStated } from './stated.ts';
import { tokensText } from './statement-dress.ts';
import type { Span, Token } from './syntax.ts';
import type { RecordTerm } from './term-names.ts';

const ERROR_RULES: readonly ErrorRule[] = [
  'least count',
  'half the least count',
  'mean absolute error',
  'rectangular',
  'standard deviation of the mean',
];

/** Reads a record about the block itself: its instrument, its error rule, what it uses, what it waives. */
export function interpretRecord(draft: Draft, term: RecordTerm, right: readonly Token[], span: Span): void {
  const text = tokensText(right).trim();
  const valueSpan = right.length === 0 ? span : tokensSpan(right);
  switch (term) {
    case 'instrument':
      if (recordOnce(draft, term, span)) draft.instrument = text.toLowerCase();
      return;
    case 'vernier runs':
      if (!recordOnce(draft, term, span)) return;
      if (/^backwards?\b/i.test(text)) draft.runsBackward = true;
      else if (!/^forwards?\b/i.test(text)) {
        leaveUnread(draft, term);
        report(
          draft,
          'unreadable-line',
          valueSpan,
          `the vernier runs forward or backward, not ${text || 'nothing'}`,
        );
      }
      return;
    case 'measuring range':
      if (recordOnce(draft, term, span)) interpretRange(draft, right, span);
      return;
    case 'error rule': {
      if (!recordOnce(draft, term, span)) return;
      const plain = text.toLowerCase().replace(/[\s-]+/g, ' ');
      const rule = ERROR_RULES.find(
        known =>
          known === plain ||
          (known === 'half the least count' && plain === 'half least count') ||
          (known === 'least count' && plain === 'lc'),
      );
      if (rule === undefined) {
        leaveUnread(draft, term);
        report(
          draft,
          'unreadable-line',
          valueSpan,
          `${text || 'nothing'} is no error rule; the rules are ${ERROR_RULES.join(', ')}`,
        );
      } else {
        draft.errorRule = { rule, span };
      }
      return;
    }
    case 'coverage factor':
      if (!recordOnce(draft, term, span)) return;
      draft.coverageFactor = readStated(draft, right, { mode: 'value' });
      if (draft.coverageFactor === null) leaveUnread(draft, term);
      return;
    case 'uses':
      if (recordOnce(draft, term, span)) draft.uses = { name: blockKey(text), span: valueSpan };
      return;
    case 'waive':
      interpretWaiver(draft, right, span);
      return;
    case 'find':
    case 'option':
    case 'answer':
    case 'label':
      report(draft, 'unreadable-line', span, `${term} does not stand here alone`);
  }
}

function interpretRange(draft: Draft, right: readonly Token[], span: Span): void {
  const to = right.findIndex(
    token => (token.kind === 'word' && token.text.toLowerCase() === 'to') || isSign(token, '–'),
  );
  const high = to < 1 ? [] : right.slice(to + 1);
  const low = to < 1 ? [] : right.slice(0, to);
  if (low.length === 0 || high.length === 0) {
    report(
      draft,
      'unreadable-line',
      span,
      'a measuring range goes from one value to another, as in 0 mm to 150 mm',
    );
    return;
  }
  const until = readStated(draft, high, { mode: 'value' });
  const unit = high.filter(token => token.kind !== 'number');
  const from = readStated(draft, low, { mode: 'value', unit });
  if (from !== null && until !== null) draft.range = { from, to: until, span };
}

function interpretWaiver(draft: Draft, right: readonly Token[], span: Span): void {
  const comma = right.findIndex(token => isSign(token, ','));
  const named = comma === -1 ? right : right.slice(0, comma);
  const name = tokensText(named).replace(/\s+/g, '-').toLowerCase();
  const rule = RULE_NAMES.find(known => known === name);
  if (rule === undefined) {
    const near = RULE_NAMES.find(known => known.startsWith(name.slice(0, 6)) && name.length >= 6);
    for (const known of near === undefined ? RULE_NAMES : [near]) draft.halfWaived.add(known);
    report(
      draft,
      'unknown-term',
      named.length === 0 ? span : tokensSpan(named),
      `${tokensText(named) || 'nothing'} is no rule, so nothing is waived${near === undefined ? '' : `; ${near} is likely meant`}`,
      near === undefined ? [] : [replaceFix(`Write ${near}`, tokensSpan(named), near, false)],
    );
    return;
  }
  const reason = comma === -1 ? '' : waiverReason(draft, right, comma);
  if (reason === '') {
    draft.halfWaived.add(rule);
    report(
      draft,
      'unreadable-line',
      span,
      `waiving ${rule} needs a reason behind a comma, so that the next reader knows why`,
    );
    return;
  }
  draft.waivers.push({ rule: rule as RuleName, reason, span });
}

/** The reason behind the comma as it was typed: it is free text, so its dress and its brackets are part of it. */
function waiverReason({ fence, mending }: Draft, right: readonly Token[], comma: number): string {
  const words = right.slice(comma + 1);
  const { start, end } = tokensSpan(right.slice(comma, comma + 1));
  const line = fence.lines.find(each => each.start <= start && end <= each.start + each.text.length);
  // Of a line that is read as its fix would write it nothing else was typed.
  if (line === undefined || mending !== null || words.length === 0) return tokensText(words).trim();
  const [before, after] = [line.text.slice(0, start - line.start), line.text.slice(end - line.start)];
  const said = after.slice(0, commentStart(after) ?? after.length).trim();
  const closing = /(?:\*\*|__|[*_`$])$/.exec(said)?.[0];
  // Dress of the whole line, `**waive: limit, so**`, is opened before the reason.
  return closing !== undefined && before.split(closing).length % 2 === 0
    ? said.slice(0, -closing.length).trim()
    : said;
}

/** `any length`, `any mass ± 2 %`: a letter, with an error where it has one; null for an ordinary value. */
export function readLetter(
  draft: Draft,
  right: readonly Token[],
): { readonly domain: LetterKind; readonly error: Expression | null } | 'reported' | null {
  if (right[0]?.kind !== 'word' || right[0].text.toLowerCase() !== 'any') return null;
  const sign = right.findIndex(token => isSign(token, '±'));
  const words = tokensText(sign === -1 ? right.slice(1) : right.slice(1, sign)).toLowerCase();
  const domain = LETTER_KINDS.get(words);
  if (domain === undefined) {
    report(
      draft,
      'unreadable-line',
      tokensSpan(right),
      `any ${words} is no kind of value; write any number, whole number, length, mass, time, angle or quantity`,
    );
    return 'reported';
  }
  if (sign === -1) return { domain, error: null };
  const error: Stated | null = readStated(draft, right.slice(sign + 1), { mode: 'value' });
  return error === null ? 'reported' : { domain, error: error.expression };
}

const LETTER_KINDS: ReadonlyMap<string, LetterKind> = new Map([
  ['number', 'number'],
  ['whole number', 'whole number'],
  ['integer', 'whole number'],
  ['length', 'length'],
  ['mass', 'mass'],
  ['time', 'time'],
  ['angle', 'angle'],
  ['quantity', 'quantity'],
]);
