import * as vscode from 'vscode';
import { until } from './until.ts';

/** What leastwise says about a note: its rule, the text that is underlined, the message. */
export interface ShownFinding {
  readonly rule: string;
  readonly at: string;
  readonly message: string;
  readonly diagnostic: vscode.Diagnostic;
}

/** Those of a note that is open, with the text that they underline, or of one that is not. */
export function shownFindings({
  uri,
  getText,
}: {
  readonly uri: vscode.Uri;
  readonly getText?: (range: vscode.Range) => string;
}): readonly ShownFinding[] {
  return vscode.languages
    .getDiagnostics(uri)
    .filter(({ source }) => source === 'leastwise')
    .map(diagnostic => ({
      rule: ruleOf(diagnostic),
      at: getText?.(diagnostic.range) ?? '',
      message: diagnostic.message,
      diagnostic,
    }));
}

/** Waits until a note shows a finding that fits. */
export async function findingShown(
  document: vscode.TextDocument,
  what: string,
  fits: (finding: ShownFinding) => boolean,
): Promise<ShownFinding> {
  const found = await until(
    what,
    () => shownFindings(document),
    findings => findings.some(fits),
  );
  const [first] = found.filter(fits);
  if (first === undefined) throw new Error(what);
  return first;
}

/** Waits until a note has been looked at in its present state and shows no finding. */
export async function nothingShown(document: vscode.TextDocument): Promise<void> {
  await until(
    'no finding is left',
    () => shownFindings(document).map(({ rule, at }) => `${rule} at ${at}`),
    findings => findings.length === 0,
  );
}

function ruleOf({ code }: vscode.Diagnostic): string {
  return String(typeof code === 'object' ? code.value : code);
}

const PROBE = '\n\n```measurement probe\npitch: 1 mm\npitch = 2 mm\n```\n';

/**
 * The findings of a note as it stands now. A block with a known mistake is put below it for as long as it takes:
 * once that one is shown, everything above has been looked at in its present state too.
 */
export async function presentFindings(editor: vscode.TextEditor): Promise<readonly ShownFinding[]> {
  const { document } = editor;
  const end = document.positionAt(document.getText().length);
  await editor.edit(edit => edit.insert(end, PROBE), { undoStopBefore: true, undoStopAfter: true });
  const isProbed = ({ diagnostic }: ShownFinding) => diagnostic.range.start.isAfter(end);
  await findingShown(document, 'the mistake that was put in to see when the check is through', isProbed);
  const found = shownFindings(document).filter(finding => !isProbed(finding));
  await vscode.commands.executeCommand('undo');
  return found;
}
