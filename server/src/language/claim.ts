import { unitWord } from '../engine/unit.ts';
import { type Draft, report } from './draft.ts';
import { NOTHING_BEHIND, signBefore, splitAt } from './interpret-scale.ts';
import { spanOfTokens } from './left-side.ts';
import type { Claim, Link, Subject } from './measurement.ts';
import { subjectKey } from './names.ts';
import { isSign, type Statement } from './parser.ts';
import { readStated } from './stated.ts';
import { joinSpans, type Span, type Token } from './syntax.ts';

type Signed = Exclude<Statement, { readonly kind: 'table' | 'words' }>;

/** The claim that a statement makes about a subject; its broken links are reported and left out. */
export function claimOf(draft: Draft, statement: Signed, subject: Subject, symbol: string | null): Claim {
  rememberSubject(draft, subject);
  return {
    subject,
    symbol,
    times: null,
    subjectText: statement.leftText,
    subjectSpan: spanOfTokens(statement.left) ?? statement.span,
    links: readLinks(draft, statement.right, statement.sign),
    span: statement.span,
    signSpan: statement.sign,
    inTable: false,
    mended: draft.mending !== null,
  };
}

/** Whether a claim is about the formula on its left side, `T^2 = 4.04 s^2`, and about no quantity that has a name. */
export function isAboutFormula({ links, subjectSpan }: Claim): boolean {
  return links.length > 1 && links[0]!.span.start === subjectSpan.start;
}

/** Lets formulas look a subject up by its key. */
export function rememberSubject(draft: Draft, subject: Subject): void {
  (draft.table.subjects as Map<string, Subject>).set(subjectKey(subject), subject);
}

/** Whether only a value is asked for, `?`, maybe with the unit that it is wanted in: `? cm^2`, `? %`. */
export function asksOnly([first, ...unit]: readonly Token[]): boolean {
  if (first === undefined || !isSign(first, '?')) return false;
  return unit.every((token, index) => {
    switch (token.kind) {
      case 'word':
        return unitWord(token.text) !== null;
      case 'number':
        return unit[index - 1] !== undefined;
      case 'operator':
        return /^[\^/×-]$/.test(token.text);
      default:
        return true;
    }
  });
}

const LINK = { mode: 'link' } as const;

/**
 * The links of a claim; each is read for itself, so that a broken one costs only itself. `sign` is where the first of
 * them would stand.
 */
export function readLinks(
  draft: Draft,
  tokens: readonly Token[],
  sign: Span,
  unit?: readonly Token[],
): readonly Link[] {
  return splitAt(tokens).map((part, index): Link => {
    const first = part[0];
    const last = part[part.length - 1];
    if (first === undefined || last === undefined) {
      const at = draft.mending ?? signBefore(tokens, index) ?? sign;
      report(draft, 'unreadable-line', at, NOTHING_BEHIND);
      return { content: { kind: 'broken' }, span: at };
    }
    const span = joinSpans(first.span, last.span);
    if (asksOnly(part)) return { content: { kind: 'asked' }, span };
    const options = unit === undefined || unit.length === 0 ? LINK : { ...LINK, unit };
    const stated = readStated(draft, part, options);
    return stated === null
      ? { content: { kind: 'broken' }, span }
      : { content: { kind: 'stated', stated }, span };
  });
}
