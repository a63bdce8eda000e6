import * as vscode from 'vscode';

let serial = 0;

/** Writes a note into the folder of this run and opens it; line ends are kept as they stand in the text. */
export async function openNote(text: string): Promise<vscode.TextEditor> {
  serial += 1;
  const uri = vscode.Uri.joinPath(folder(), `bench-${serial}.md`);
  await vscode.workspace.fs.writeFile(uri, new TextEncoder().encode(text));
  return await vscode.window.showTextDocument(uri, { preview: false });
}

/** Opens one of the examples, which stand beside the notes of this run. */
export async function openExample(path: string): Promise<vscode.TextEditor> {
  return await vscode.window.showTextDocument(vscode.Uri.joinPath(folder(), path), { preview: false });
}

export async function closeAll(): Promise<void> {
  // Reverted first, so that no question about unsaved text comes up.
  while (vscode.window.activeTextEditor !== undefined)
    await vscode.commands.executeCommand('workbench.action.revertAndCloseActiveEditor');
}

export function folder(): vscode.Uri {
  const [first] = vscode.workspace.workspaceFolders ?? [];
  if (first === undefined) throw new Error('No folder of notes is open');
  return first.uri;
}
