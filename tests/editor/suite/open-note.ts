import * as vscode from 'vscode';
import { until } from './until.ts';

let serial = 0;

/** Writes a note into the folder of this run and opens it; line ends are kept as they stand in the text. */
export async function openNote(text: string): Promise<vscode.TextEditor> {
  serial += 1;
  const uri = vscode.Uri.joinPath(folder(), `bench-${serial}.md`);
  await vscode.workspace.fs.writeFile(uri, new TextEncoder().encode(text));
  return await opened(uri);
}

/** Opens one of the examples, which stand beside the notes of this run. */
export async function openExample(path: string): Promise<vscode.TextEditor> {
  return await opened(vscode.Uri.joinPath(folder(), path));
}

/** Opens a note as somebody who clicks on it: one that a program opens stays open for a while after its tab is closed. */
async function opened(uri: vscode.Uri): Promise<vscode.TextEditor> {
  await vscode.commands.executeCommand('vscode.open', uri, { preview: false });
  await until(
    `${uri.path} is open`,
    () => vscode.window.activeTextEditor?.document.uri.toString(),
    shown => shown === uri.toString(),
  );
  const editor = vscode.window.activeTextEditor;
  if (editor === undefined) throw new Error(`${uri.path} was closed`);
  return editor;
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
