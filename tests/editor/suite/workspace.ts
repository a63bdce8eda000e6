import * as vscode from 'vscode';
import { AXLE } from './bench-notes.ts';
import type { EditorTest } from './editor-test.ts';
import { equal, holds } from './equal.ts';
import { findingShown, shownFindings } from './findings.ts';
import { closeAll, folder, openNote } from './open-note.ts';
import { until } from './until.ts';

const WRONG = AXLE.replace('1.27 cm', '1.28 cm');

/** Notes that nobody has open. */
export const WORKSPACE: readonly EditorTest[] = [
  {
    name: 'A note that nobody opened is checked as it appears, changes and goes',
    async run() {
      const uri = vscode.Uri.joinPath(folder(), 'shelf', 'closed.md');
      await write(uri, WRONG);
      await count(uri, 'the finding of the new note', found => found > 0);
      await write(uri, AXLE);
      await count(uri, 'nothing is left once it is right', found => found === 0);
      await write(uri, WRONG);
      await count(uri, 'it is wrong again', found => found > 0);
      await vscode.workspace.fs.delete(vscode.Uri.joinPath(folder(), 'shelf'), { recursive: true });
      await count(uri, 'nothing is left of a note that is gone', found => found === 0);
    },
  },
  {
    name: 'Closing a note leaves what its file says, and its file says it no more once it is deleted',
    async run() {
      const { document } = await openNote(WRONG);
      await findingShown(document, 'the wrong reading', () => true);
      await closeAll();
      await count(document.uri, 'what the file says', found => found > 0);
      await vscode.workspace.fs.delete(document.uri);
      await count(document.uri, 'nothing is left of the deleted note', found => found === 0);
    },
  },
  {
    name: 'Where closed notes are not to be checked, closing a note takes its findings away',
    async run() {
      const settings = vscode.workspace.getConfiguration('leastwise');
      const careless = vscode.Uri.joinPath(folder(), 'careless', '01-calipers.md');
      await count(careless, 'the findings of a careless note', found => found > 0);
      await settings.update('workspace.check', false, false);
      try {
        await count(careless, 'no finding of a closed note', found => found === 0);
        const { document } = await openNote(WRONG);
        await findingShown(document, 'the wrong reading', () => true);
        await closeAll();
        await count(document.uri, 'no finding of the closed note', found => found === 0);
      } finally {
        await settings.update('workspace.check', undefined, false);
      }
      await count(careless, 'they are back', found => found > 0);
    },
  },
  {
    name: 'Checking the workspace counts what stands among the problems',
    async run() {
      await openNote(AXLE);
      const result = await vscode.commands.executeCommand<{
        readonly notes: number;
        readonly findings: number;
        readonly notesWithFindings: number;
      }>('leastwise.checkWorkspace');
      holds(result.notes > 10, `notes checked: ${result.notes}`);
      const listed = await until(
        'as many among the problems',
        () => {
          const found = vscode.languages
            .getDiagnostics()
            .map(([, all]) => all.filter(({ source }) => source === 'leastwise').length)
            .filter(each => each > 0);
          return [found.reduce((sum, each) => sum + each, 0), found.length];
        },
        ([findings]) => findings === result.findings,
      );
      equal([result.findings, result.notesWithFindings], listed, 'findings and notes');
    },
  },
];

async function count(uri: vscode.Uri, what: string, fits: (found: number) => boolean): Promise<void> {
  await until(what, () => shownFindings({ uri }).length, fits);
}

async function write(uri: vscode.Uri, text: string): Promise<void> {
  await vscode.workspace.fs.writeFile(uri, new TextEncoder().encode(text));
}
