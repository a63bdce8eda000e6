import { type Draft, replaceFix, report } from './draft.ts';
import { tokenize } from './lexer.ts';
import { statementOf } from './parser.ts';
import { trimDress } from './statement-dress.ts';
import type { Span } from './syntax.ts';

/**
 * Says that a statement is not in the language's form, offers it as it was meant, and goes on as if it stood so.
 *
 * Nothing is read as something else in silence: the finding stands at the statement until the fix is taken.
 */
export function mend(draft: Draft, span: Span, message: string, text: string): void {
  report(draft, 'not-plain', span, message, [
    replaceFix(`Write ${text.replace(/\n\s*/g, ', ')}`, span, indented(draft, span, text), true),
  ]);
  readAs(draft, span, text);
}

/** Reads other text in the place of a statement; whatever it says stands at that statement. */
function readAs(draft: Draft, span: Span, text: string): void {
  if (draft.mending !== null) return;
  draft.mending = span;
  for (const line of text.split('\n')) {
    const tokens = tokenize(line, span.start).tokens.map(token => ({ ...token, span }));
    const trimmed = trimDress(tokens, true);
    if (trimmed.length > 0) draft.readAgain({ ...statementOf(trimmed), span });
  }
  draft.mending = null;
}

/** Further lines begin as the fence's lines do: with the list's indentation and the quote's marks. */
function indented(draft: Draft, span: Span, text: string): string {
  const line = lineAt(draft, span);
  if (line === undefined) return text;
  const indent = line.text.slice(0, line.text.length - line.text.trimStart().length);
  return text.split('\n').join(`\n${line.prefix}${indent}`);
}

/** The fence's line that a place stands on. */
export function lineAt(draft: Draft, span: Span): Draft['fence']['lines'][number] | undefined {
  return draft.fence.lines.find(
    line => line.start <= span.start && span.start <= line.start + line.text.length,
  );
}
