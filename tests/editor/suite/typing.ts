import * as vscode from 'vscode';

/** The place of the only occurrence of a text in a note. */
export function placeOf({ document }: vscode.TextEditor, text: string): vscode.Range {
  const at = document.getText().indexOf(text);
  if (at < 0) throw new Error(`${JSON.stringify(text)} does not stand in the note`);
  return new vscode.Range(document.positionAt(at), document.positionAt(at + text.length));
}

/** Types over a text of the note, key by key, as a hand does. */
export async function typeOver(editor: vscode.TextEditor, old: string, typed: string): Promise<void> {
  const place = placeOf(editor, old);
  editor.selection = new vscode.Selection(place.start, place.end);
  for (const text of typed) await vscode.commands.executeCommand('type', { text });
}

/** Types at the end of the line in which a text stands. */
export async function typeAfter(editor: vscode.TextEditor, line: string, typed: string): Promise<void> {
  const { end } = editor.document.lineAt(placeOf(editor, line).end.line).range;
  editor.selection = new vscode.Selection(end, end);
  for (const text of typed) await vscode.commands.executeCommand('type', { text });
}
