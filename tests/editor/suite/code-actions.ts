import * as vscode from 'vscode';
import { until } from './until.ts';

/** How many of the offered actions are asked for their edits as well: more than a note ever offers at a place. */
const ALL = 50;

type Wanted = string | RegExp;

/** What is on offer at a place, with the edits; the editor itself asks for them one by one. */
export async function offeredAt(
  { document }: vscode.TextEditor,
  place: vscode.Range,
  kind?: string,
): Promise<readonly vscode.CodeAction[]> {
  const offered = await vscode.commands.executeCommand<(vscode.CodeAction | vscode.Command)[]>(
    'vscode.executeCodeActionProvider',
    document.uri,
    place,
    kind,
    ALL,
  );
  return offered.filter((each): each is vscode.CodeAction => typeof each.command !== 'string');
}

/** Waits for an action of a title, and makes its edits as the editor does; says what was offered where it never comes. */
export async function apply(
  editor: vscode.TextEditor,
  place: vscode.Range,
  title: Wanted,
  kind?: string,
): Promise<vscode.CodeAction> {
  const isWanted = (action: { readonly title: string }) =>
    typeof title === 'string' ? action.title === title : title.test(action.title);
  let offered: readonly vscode.CodeAction[] = [];
  await until(
    `${String(title)} is on offer`,
    async () => {
      offered = await offeredAt(editor, place, kind);
      return offered.map(action => action.title);
    },
    titles => titles.some(each => isWanted({ title: each })),
  );
  const action = offered.find(isWanted);
  if (action === undefined) throw new Error(`${String(title)} is gone`);
  if (!(await make(action))) throw new Error(`${action.title} was refused`);
  return action;
}

/** Makes what an action does, as the editor does it when the action is chosen; false where it was refused. */
export async function make({ title, edit, command }: vscode.CodeAction): Promise<boolean> {
  if (edit === undefined && command === undefined) throw new Error(`${title} comes without edits`);
  if (edit !== undefined && !(await vscode.workspace.applyEdit(edit))) return false;
  if (command === undefined) return true;
  return (
    (await vscode.commands.executeCommand<unknown>(command.command, ...(command.arguments ?? []))) !== false
  );
}
