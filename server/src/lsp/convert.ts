// Between the offsets of a note and the lines and characters of an editor, both in UTF-16 units.
import {
  type Diagnostic,
  DiagnosticSeverity,
  DiagnosticTag,
  type Position,
  type Range,
  type TextEdit,
  type WorkspaceEdit,
} from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Finding } from '../checks/finding.ts';
import type { Edit } from '../language/problem.ts';
import { type Span, spanOf } from '../language/syntax.ts';

/** Who speaks, beside each finding. */
export const SOURCE = 'leastwise';

/** A finding as an editor shows it: its place, its rule, and the lines that belong to it. */
export function diagnosticFrom(document: TextDocument, finding: Finding): Diagnostic {
  const related = relatedPlaces(finding);
  return {
    range: rangeFrom(document, finding.span),
    severity: finding.severity === 'error' ? DiagnosticSeverity.Error : DiagnosticSeverity.Warning,
    code: finding.rule,
    source: SOURCE,
    message: finding.message,
    ...(finding.rule === 'unused-waiver' ? { tags: [DiagnosticTag.Unnecessary] } : {}),
    ...(related.length === 0
      ? {}
      : {
          relatedInformation: related.map(({ span, message }) => ({
            location: { uri: document.uri, range: rangeFrom(document, span) },
            message,
          })),
        }),
    data: { rule: finding.rule, slip: finding.slip },
  };
}

/** The root cause first; a line that is told as the cause is not told again. */
function relatedPlaces({ cause, related }: Finding): Finding['related'] {
  if (cause === null) return related;
  const others = related.filter(({ span }) => span.start !== cause.start);
  return [{ span: cause, message: 'it comes from this line' }, ...others];
}

export function rangeFrom(document: TextDocument, span: Span): Range {
  return { start: document.positionAt(span.start), end: document.positionAt(span.end) };
}

/** The offset of a position; one outside the note counts as the nearest end. */
export function offsetFrom(document: TextDocument, position: Position): number {
  return document.offsetAt(position);
}

export function spanFrom(document: TextDocument, range: Range): Span {
  const start = offsetFrom(document, range.start);
  const end = offsetFrom(document, range.end);
  return spanOf(Math.min(start, end), Math.max(start, end));
}

export function textEditsFrom(document: TextDocument, edits: readonly Edit[]): TextEdit[] {
  return edits.map(({ span, newText }) => ({ range: rangeFrom(document, span), newText }));
}

/** Edits of one note; an editor that can tells by the version whether the note is still the one they were made for. */
export function workspaceEditFrom(
  document: TextDocument,
  edits: readonly Edit[],
  isVersioned: boolean,
): WorkspaceEdit {
  const { uri, version } = document;
  const textEdits = textEditsFrom(document, edits);
  return isVersioned
    ? { documentChanges: [{ textDocument: { uri, version }, edits: textEdits }] }
    : { changes: { [uri]: textEdits } };
}
