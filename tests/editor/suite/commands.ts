import * as vscode from 'vscode';
import { AXLE, AXLE_OBSERVED } from './bench-notes.ts';
import type { EditorTest } from './editor-test.ts';
import { equal, holds } from './equal.ts';
import { findingShown, presentFindings } from './findings.ts';
import { openNote } from './open-note.ts';
import { placeOf } from './typing.ts';
import { until } from './until.ts';

/** What is chosen by its title. */
export const COMMANDS: readonly EditorTest[] = [
  {
    name: 'A new block of the first instrument is right as it stands, at the margin and in a quotation',
    async run() {
      for (const [note, line] of [
        ['# Bench\n\n', 2],
        ['> Bench\n> \n', 1],
        ['The axle fits.\n', 1],
        [AXLE, 6],
      ] as const) {
        const editor = await openNote(note);
        editor.selection = new vscode.Selection(line, 99, line, 99);
        await chooseFirst('leastwise.newBlock', editor);
        const text = editor.document.getText();
        holds(text.includes('measurement name'), `begun as\n${text}`);
        holds(!/[^\s>]\n[> ]*```measurement/.test(text), `clear of what stands above\n${text}`);
        holds(
          !note.startsWith('>') || /\n> instrument: vernier calipers\n/.test(text),
          `within the quotation\n${text}`,
        );
        equal(
          (await presentFindings(editor)).map(({ message }) => message),
          [],
          text,
        );
      }
    },
  },
  {
    name: 'The working is inserted below the block of the cursor',
    async run() {
      const editor = await openNote(AXLE_OBSERVED);
      equal(await presentFindings(editor), [], 'the note as opened');
      const { start } = placeOf(editor, 'coinciding division');
      editor.selection = new vscode.Selection(start, start);
      await vscode.commands.executeCommand('leastwise.insertWorking');
      holds(editor.document.getText().includes('<!-- working: axle '), editor.document.getText());
      equal(await presentFindings(editor), [], 'findings after the insertion');
    },
  },
  {
    name: 'The rule of the finding at the cursor is shown, and each finding has the link to it',
    async run() {
      const editor = await openNote(AXLE.replace('1.27 cm', '1.28 cm'));
      const { diagnostic } = await findingShown(
        editor.document,
        'the wrong reading',
        ({ at }) => at === '1.28 cm',
      );
      const { code } = diagnostic;
      holds(
        typeof code === 'object' && code.target.path.endsWith('/server/reference/rules/wrong-value.md'),
        'its link',
      );
      editor.selection = new vscode.Selection(diagnostic.range.start, diagnostic.range.start);
      await vscode.commands.executeCommand('leastwise.showRule');
      await until(
        'the page of the rule',
        () => vscode.window.tabGroups.all.flatMap(({ tabs }) => tabs.map(({ label }) => label)),
        labels => labels.some(label => label.includes('wrong-value.md')),
      );
      await vscode.commands.executeCommand('workbench.action.closeAllEditors');
    },
  },
];

/** Runs a command that asks for a choice, and takes the first one; the list takes its time to come up. */
async function chooseFirst(command: string, { document }: vscode.TextEditor): Promise<void> {
  const { version } = document;
  let isDone = false;
  const running = vscode.commands.executeCommand(command).then(() => {
    isDone = true;
  });
  await until(
    'something is chosen',
    () => vscode.commands.executeCommand('workbench.action.acceptSelectedQuickOpenItem').then(() => isDone),
    done => done,
  );
  await running;
  holds(version < document.version, 'the note is as it was');
}
