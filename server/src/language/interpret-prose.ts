import { readLinks } from './claim.ts';
import type { Draft } from './draft.ts';
import { tokenize } from './lexer.ts';
import type { Subject } from './measurement.ts';
import { type NameContext, NO_DECLARATIONS, type NoteNames, resolveName, subjectKey } from './names.ts';
import { isSign, tokensSpan } from './parser.ts';
import { tokensText } from './statement-dress.ts';
import type { CodeSpan } from './syntax.ts';

/**
 * Reads claims in the prose: a code span `corrected reading of axle-sleeve = 2.478 cm` that names a block of the note.
 *
 * Code spans that do not are code, not claims. Null where the prose claims nothing.
 */
export function interpretProse(
  codeSpans: readonly CodeSpan[],
  note: NoteNames,
  makeDraft: (names: NameContext) => Draft,
): Draft | null {
  if (codeSpans.length === 0 || note.size === 0) return null;
  const names: NameContext = { here: NO_DECLARATIONS, note };
  let draft: Draft | null = null;
  for (const span of codeSpans) {
    const { tokens } = tokenize(span.text, span.start);
    const at = tokens.findIndex(token => isSign(token, '=') || isSign(token, '≈'));
    if (at < 1) continue;
    const left = tokens.slice(0, at);
    const subject = resolveName(tokensText(left).replace(/^the /i, ''), names);
    if (subject === null || !leavesProse(subject)) continue;
    draft ??= makeDraft(names);
    (draft.table.subjects as Map<string, Subject>).set(subjectKey(subject), subject);
    draft.claims.push({
      subject,
      symbol: null,
      times: null,
      subjectText: tokensText(left),
      subjectSpan: tokensSpan(left),
      links: readLinks(draft, tokens.slice(at + 1), tokens[at]!.span),
      span: tokensSpan(tokens),
      signSpan: tokens[at]!.span,
      inTable: false,
      mended: false,
    });
  }
  return draft;
}

/** Whether a subject belongs to a block of the note. */
function leavesProse(subject: Subject): boolean {
  if (subject.kind === 'statistic') return leavesProse(subject.of);
  return subject.kind !== 'unknown' && subject.block !== null;
}
