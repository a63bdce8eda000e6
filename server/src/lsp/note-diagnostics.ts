import type { Diagnostic } from 'vscode-languageserver';
import type { Span } from '../language/syntax.ts';
import { diagnosticFrom } from './convert.ts';
import type { OpenNote } from './open-notes.ts';

/** What an editor underlines in a note, but for a line that is not finished; waived findings are not among it. */
export function diagnosticsOf(
  { document, checked }: Pick<OpenNote, 'document' | 'checked'>,
  unfinished: Span | null = null,
): Diagnostic[] {
  const isHeld = ({ start }: Span) =>
    unfinished !== null && unfinished.start <= start && start <= unfinished.end;
  return checked.findings
    .filter(finding => finding.waived === null && !isHeld(finding.span))
    .map(finding => diagnosticFrom(document, finding));
}
