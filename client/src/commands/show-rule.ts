import { commands, l10n, languages, type TextEditor, type Uri, window } from 'vscode';
import { pageOf, ruleOf } from '../rule-links.ts';
import { say } from '../say.ts';

/** Shows what a rule is about, with its example: the named one, or that of the finding at the cursor. */
export async function showRule(extension: Uri, named: unknown): Promise<void> {
  const editor = window.activeTextEditor;
  const rule = typeof named === 'string' ? named : editor === undefined ? null : ruleAtCursor(editor);
  if (rule === null) {
    say(l10n.t('No finding stands at the cursor'));
    return;
  }
  const page = pageOf(extension, rule);
  if (page !== null) await commands.executeCommand('markdown.showPreviewToSide', page);
}

/** The rule of the finding that the cursor is in, else of the first one in its line. */
function ruleAtCursor({ document, selection }: TextEditor): string | null {
  const cursor = selection.active;
  const findings = languages
    .getDiagnostics(document.uri)
    .filter(
      each =>
        ruleOf(each) !== null && each.range.start.line <= cursor.line && cursor.line <= each.range.end.line,
    );
  const finding = findings.find(({ range }) => range.contains(cursor)) ?? findings[0];
  return finding === undefined ? null : ruleOf(finding);
}
