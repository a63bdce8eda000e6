import * as vscode from 'vscode';
import { AXLE } from './bench-notes.ts';
import { apply } from './code-actions.ts';
import type { EditorTest } from './editor-test.ts';
import { equal, holds } from './equal.ts';
import { findingShown, presentFindings, shownFindings } from './findings.ts';
import { folder, openExample, openNote } from './open-note.ts';
import { TITLES } from './titles.ts';
import { placeOf, typeOver } from './typing.ts';

/** Whether the extension runs in a page. */
declare const IN_BROWSER: boolean;

/** Every note that an editor may hold. */
export const NOTES: readonly EditorTest[] = [
  {
    name: 'A note with the line ends of Windows keeps them through a fix and an insertion',
    async run() {
      const note = AXLE.replaceAll('\n', '\r\n');
      const editor = await openNote(note);
      equal(editor.document.eol, vscode.EndOfLine.CRLF, 'line ends');
      await typeOver(editor, '1.27 cm', '1.28 cm');
      const { diagnostic } = await findingShown(
        editor.document,
        'the wrong reading is underlined',
        ({ at }) => at === '1.28 cm',
      );
      await apply(editor, diagnostic.range, TITLES.write('1.27 cm'));
      equal(editor.document.getText(), note, 'the note after the fix');
      await apply(editor, placeOf(editor, 'corrected reading = 1.23 cm'), TITLES.below);
      holds(!/[^\r]\n/.test(editor.document.getText()), 'a line ends otherwise');
      equal(await presentFindings(editor), [], 'findings after the insertion');
    },
  },
  {
    name: 'In a list and a quotation an insertion keeps what stands before each line',
    async run() {
      for (const prefix of ['   ', '> ']) {
        const block = AXLE.split('\n').map(line => (prefix + line).trimEnd());
        const editor = await openNote(`${prefix === '> ' ? '' : '1. A list.\n\n'}${block.join('\n')}\n`);
        equal(await presentFindings(editor), [], 'the note as opened');
        const before = editor.document.lineCount;
        await apply(editor, placeOf(editor, 'corrected reading = 1.23 cm'), TITLES.below);
        holds(editor.document.lineCount > before, 'nothing was inserted');
        const wrong = editor.document
          .getText()
          .split('\n')
          .slice(2)
          .filter(line => line !== '' && !line.startsWith(prefix.trimEnd() || prefix));
        equal(wrong, [], `lines without ${JSON.stringify(prefix)}`);
        equal(await presentFindings(editor), [], 'findings after the insertion');
      }
    },
  },
  {
    name: 'A note that was never saved is checked',
    async run() {
      const document = await vscode.workspace.openTextDocument({ language: 'markdown', content: AXLE });
      const editor = await vscode.window.showTextDocument(document);
      await typeOver(editor, 'corrected reading = 1.23', 'corrected reading = 1.31');
      const { diagnostic, rule } = await findingShown(
        document,
        'the wrong reading is underlined',
        ({ at }) => at === '1.31 cm',
      );
      equal([document.isUntitled, rule], [true, 'wrong-value'], 'what is shown');
      await apply(editor, diagnostic.range, TITLES.write('1.23 cm'));
      equal(document.getText(), AXLE, 'the note after the fix');
    },
  },
  {
    name: 'A text that is not Markdown is left alone',
    async run() {
      const content = AXLE.replace('1.27 cm', '1.28 cm');
      const plain = await vscode.workspace.openTextDocument({ language: 'plaintext', content });
      // A note beside it shows when the server has had its chance.
      const { document } = await openNote(content);
      await findingShown(document, 'the wrong reading of the note', () => true);
      equal(shownFindings(plain), [], 'findings of the plain text');
    },
  },
  {
    name: 'The examples are silent, and the careless copies of them are not',
    async run() {
      const names = await exampleNames();
      holds(names.length > 5, 'the examples are there');
      // The checks are the same in a browser; there it is enough to see that they run.
      for (const name of IN_BROWSER ? names.slice(0, 2) : names) {
        const right = await openExample(name);
        equal(
          (await presentFindings(right)).map(({ message }) => message),
          [],
          name,
        );
        const careless = await openExample(`careless/${name}`);
        holds((await presentFindings(careless)).length > 0, `careless/${name} shows findings`);
      }
    },
  },
];

async function exampleNames(): Promise<readonly string[]> {
  const entries = await vscode.workspace.fs.readDirectory(folder());
  return entries.map(([name]) => name).filter(name => /^\d\d-.*\.md$/.test(name));
}
