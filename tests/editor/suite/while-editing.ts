import * as vscode from 'vscode';
import { AXLE, HURRIED } from './bench-notes.ts';
import { apply, offeredAt } from './code-actions.ts';
import type { EditorTest } from './editor-test.ts';
import { equal, holds } from './equal.ts';
import { findingShown, nothingShown, presentFindings } from './findings.ts';
import { openNote } from './open-note.ts';
import { TITLES } from './titles.ts';
import { placeOf, typeOver } from './typing.ts';
import { until } from './until.ts';

/** What a tutor meets with while writing. */
export const EDITING: readonly EditorTest[] = [
  {
    name: 'A wrong reading is underlined while it is typed, and says what is right',
    async run() {
      const editor = await openNote(AXLE);
      equal(await presentFindings(editor), [], 'the note as opened');
      await typeOver(editor, '1.27 cm', '1.28 cm');
      const { rule, at, message } = await wrongReading(editor);
      equal([rule, at], ['wrong-value', '1.28 cm'], 'what is underlined');
      holds(message.includes('1.28 cm') && message.includes('1.27 cm'), `${message} names both values`);
      holds(!message.endsWith('.'), 'a message has no final stop');
    },
  },
  {
    name: 'The fix writes the right reading, the finding goes, and undo gives the text back',
    async run() {
      const editor = await openNote(AXLE);
      await typeOver(editor, '1.27 cm', '1.28 cm');
      const typed = editor.document.getText();
      const { diagnostic } = await wrongReading(editor);
      await apply(editor, diagnostic.range, TITLES.write('1.27 cm'), 'quickfix');
      equal(editor.document.getText(), AXLE, 'the note after the fix');
      await nothingShown(editor.document);
      equal(await presentFindings(editor), [], 'findings after the fix');
      await vscode.commands.executeCommand('undo');
      equal(editor.document.getText(), typed, 'the note after undo');
      await wrongReading(editor);
    },
  },
  {
    name: 'All sure fixes are made at once, and making them again changes nothing',
    async run() {
      const editor = await openNote(HURRIED);
      await findingShown(editor.document, 'a finding of the hurried note', () => true);
      await apply(editor, placeOf(editor, 'VSR'), /./, TITLES.fixAllKind);
      const mended = editor.document.getText();
      holds(mended.includes('1.2 cm') && mended.includes('coinciding division'), `mended to\n${mended}`);
      equal(await presentFindings(editor), [], 'findings after all fixes');
      equal(
        (await offeredAt(editor, placeOf(editor, '1.2 cm'), TITLES.fixAllKind)).map(({ title }) => title),
        [],
        'what is left to mend',
      );
    },
  },
  {
    name: 'Saving makes the sure fixes where the settings ask for it',
    async run() {
      const settings = vscode.workspace.getConfiguration('editor');
      await settings.update('codeActionsOnSave', { [TITLES.fixAllKind]: 'explicit' }, false);
      try {
        const editor = await openNote(HURRIED);
        await findingShown(editor.document, 'a finding of the hurried note', () => true);
        await typeOver(editor, '1,2 cm', '1,3 cm');
        await findingShown(editor.document, 'the comma', ({ at }) => at.includes('1,3'));
        await editor.document.save();
        holds(editor.document.getText().includes('1.3 cm'), `saved as\n${editor.document.getText()}`);
        holds(!editor.document.isDirty, 'the note is saved');
      } finally {
        await settings.update('codeActionsOnSave', undefined, false);
      }
    },
  },
  {
    name: 'The working of a claim is shown where the pointer rests on it',
    async run() {
      const editor = await openNote(AXLE);
      const place = placeOf(editor, 'corrected reading = 1.23 cm').start.translate(0, 3);
      const shown = await until(
        'the working of the corrected reading',
        async () => {
          const hovers = await vscode.commands.executeCommand<vscode.Hover[]>(
            'vscode.executeHoverProvider',
            editor.document.uri,
            place,
          );
          return hovers.flatMap(({ contents }) => contents.map(textOf)).join('\n');
        },
        text => text.includes('1.23'),
      );
      holds(shown.includes('1.27') && shown.includes('0.04'), `shown is\n${shown}`);
    },
  },
];

function wrongReading({ document }: vscode.TextEditor) {
  return findingShown(document, 'the wrong reading is underlined', ({ at }) => at === '1.28 cm');
}

function textOf(content: vscode.MarkdownString | vscode.MarkedString): string {
  return typeof content === 'string' ? content : content.value;
}
