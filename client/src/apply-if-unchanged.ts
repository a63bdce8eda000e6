import { type CodeAction, commands, Disposable, l10n, type WorkspaceEdit, workspace } from 'vscode';
import type { CodeActionMiddleware } from 'vscode-languageclient';
import { say } from './say.ts';

/** Each set of edits has a command of its own that begins so. */
const COMMAND = 'leastwise.applyIfUnchanged';

/** More than a list of actions ever holds. */
const KEPT = 200;

/** The version of every open document at one moment. */
type Versions = ReadonlyMap<string, number>;

/**
 * Makes an action write through a command of ours. The editor itself writes the edits of an action wherever
 * they point to, even if somebody went on typing while they were worked out; the command then leaves the
 * note alone.
 */
export const throughCommand: CodeActionMiddleware = {
  async provideCodeActions(document, range, context, token, next) {
    const before = versions();
    const offered = await next(document, range, context, token);
    return offered?.map(each => ('kind' in each ? guarded(each, before) : each));
  },
  async resolveCodeAction(action, token, next) {
    const before = versions();
    const resolved = await next(action, token);
    return resolved && guarded(resolved, before);
  },
};

/** Lets the commands go with the extension. */
export function registerApplying(): Disposable {
  return new Disposable(() => {
    for (const each of kept.splice(0)) each.dispose();
  });
}

/** The commands of the actions that were offered last, the oldest first. */
const kept: Disposable[] = [];
let serial = 0;

/** Whether the edits were made; they are not where one of their notes has changed since. */
async function applyIfUnchanged(edit: WorkspaceEdit, before: Versions): Promise<boolean> {
  const now = versions();
  const isSame = edit.entries().every(([uri]) => now.get(uri.toString()) === before.get(uri.toString()));
  // The editor compares the version with its own once more as it writes.
  if (isSame && (await workspace.applyEdit(edit))) return true;
  say(l10n.t('The note has changed in the meantime, so nothing was written'));
  return false;
}

/**
 * An action that writes by its command. The command takes no arguments: the editor forgets those as soon as it looks
 * for actions again, even if one of the old is just being taken.
 */
function guarded(action: CodeAction, before: Versions): CodeAction {
  const { edit, title } = action;
  if (edit === undefined) return action;
  serial += 1;
  const command = `${COMMAND}.${serial}`;
  kept.push(commands.registerCommand(command, () => applyIfUnchanged(edit, before)));
  if (kept.length > KEPT) kept.shift()?.dispose();
  action.command = { title, command };
  delete action.edit;
  return action;
}

function versions(): Versions {
  return new Map(workspace.textDocuments.map(({ uri, version }) => [uri.toString(), version]));
}
