import { readLinks } from './claim.ts';
import type { Draft } from './draft.ts';
import { tokenize } from './lexer.ts';
import type { Subject } from './measurement.ts';
import { nameTable } from './name-table.ts';
import {
  blockKey,
  blockOf,
  inBlock,
  type NameContext,
  NO_DECLARATIONS,
  type NoteNames,
  resolveName,
  subjectKey,
} from './names.ts';
import { isSign, tokensSpan } from './parser.ts';
import type { NameTable } from './parser-state.ts';
import { tokensText } from './statement-dress.ts';
import type { CodeSpan, Span, Token } from './syntax.ts';

/**
 * Reads claims in the prose: a code span `corrected reading of axle-sleeve = 2.478 cm` that names a block of the note.
 *
 * Code spans that do not are code, not claims. Null where the prose claims nothing. In its formula a name is what it is in
 * that block: `density of ball = m / v`.
 */
export function interpretProse(
  codeSpans: readonly CodeSpan[],
  note: NoteNames,
  makeDraft: (names: NameContext) => Draft,
): Draft | null {
  if (codeSpans.length === 0 || note.size === 0) return null;
  const names: NameContext = { here: NO_DECLARATIONS, note };
  let draft: Draft | null = null;
  for (const { tokens, left, sign, right } of codeSpans.flatMap(span => partsOfClaim(span) ?? [])) {
    const subject = resolveName(tokensText(left).replace(/^the /i, ''), names);
    const block = subject === null ? null : blockOf(subject);
    if (subject === null || block === null) continue;
    draft ??= makeDraft(names);
    (draft.table.subjects as Map<string, Subject>).set(subjectKey(subject), subject);
    const reading = readingIn(draft, block, note);
    draft.claims.push({
      subject,
      symbol: null,
      times: null,
      subjectText: tokensText(left),
      subjectSpan: tokensSpan(left),
      links: readLinks(reading, right, sign),
      span: tokensSpan(tokens),
      signSpan: sign,
      inTable: false,
      mended: false,
    });
  }
  return draft;
}

/** What stands before and behind the first sign of a code span, of whatever it may be a claim; null where it says nothing so. */
export function partsOfClaim({ text, start }: CodeSpan): {
  readonly tokens: readonly Token[];
  readonly left: readonly Token[];
  readonly sign: Span;
  readonly right: readonly Token[];
} | null {
  const { tokens } = tokenize(text, start);
  const at = tokens.findIndex(token => isSign(token, '=') || isSign(token, '≈'));
  if (at < 1) return null;
  return { tokens, left: tokens.slice(0, at), sign: tokens[at]!.span, right: tokens.slice(at + 1) };
}

/** The draft with the names of a block, as formulas beside the block use them. */
function readingIn(draft: Draft, block: string, note: NoteNames): Draft {
  const here = note.get(blockKey(block));
  if (here === undefined) return draft;
  const names: NameContext = { here, note };
  const there = nameTable(names);
  const subjects = draft.table.subjects as Map<string, Subject>;
  const longestName: NameTable['longestName'] = (tokens, index) => {
    const found = there.longestName(tokens, index);
    const subject = found === null ? undefined : there.subjects.get(found.key);
    if (found === null || subject === undefined) return found;
    const named = inBlock(subject, block);
    const key = subjectKey(named);
    subjects.set(key, named);
    return { ...found, key };
  };
  return { ...draft, names, table: { subjects, longestName } };
}
