import type { Diagnostic } from 'vscode-languageserver';
import { diagnosticFrom } from './convert.ts';
import type { OpenNote } from './open-notes.ts';

/** What an editor underlines in a note; waived findings are not among it. */
export function diagnosticsOf({ document, checked }: Pick<OpenNote, 'document' | 'checked'>): Diagnostic[] {
  return checked.findings
    .filter(finding => finding.waived === null)
    .map(finding => diagnosticFrom(document, finding));
}
