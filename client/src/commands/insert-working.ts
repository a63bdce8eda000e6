import { type CodeAction, commands, l10n, window } from 'vscode';
import { say } from '../say.ts';

/** What the server calls the action, before it says by which way it reads the vernier. */
const TITLE = 'Insert the worked solution below the block';

/** More actions than a place ever offers: the edits of each are asked for. */
const ALL = 60;

/** Writes the worked solution below the block in which the cursor stands. */
export async function insertWorking(): Promise<void> {
  const editor = window.activeTextEditor;
  if (editor === undefined) return;
  const { document, selection } = editor;
  const offered = await commands.executeCommand<readonly CodeAction[]>(
    'vscode.executeCodeActionProvider',
    document.uri,
    selection,
    'refactor.rewrite',
    ALL,
  );
  const action =
    offered.find(({ title }) => title === TITLE) ?? offered.find(({ title }) => title.startsWith(TITLE));
  if (action?.command === undefined) {
    say(
      document.getText().includes('<!-- working:')
        ? l10n.t('This block has its working already, or nothing here can be worked out')
        : l10n.t('Nothing can be worked out here: set the cursor into a block with its observations'),
    );
    return;
  }
  await commands.executeCommand(action.command.command, ...(action.command.arguments ?? []));
}
