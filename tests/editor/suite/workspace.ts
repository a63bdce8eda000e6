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
    name: 'A note that is renamed in the editor, and one that another branch has otherwise, leave nothing behind',
    async run() {
      const { document } = await openNote(WRONG);
      await findingShown(document, 'the wrong reading', () => true);
      const renamed = vscode.Uri.joinPath(folder(), 'renamed.md');
      const edit = new vscode.WorkspaceEdit();
      edit.renameFile(document.uri, renamed);
      holds(await vscode.workspace.applyEdit(edit), 'the note is renamed');
      await count(renamed, 'the finding under the new name', found => found > 0);
      await count(document.uri, 'nothing is left under the old name', found => found === 0);
      // It stands open and was not typed at, so the editor takes over what another branch has.
      await write(renamed, AXLE);
      await count(renamed, 'nothing is left of what the other branch had', found => found === 0);
      await write(renamed, WRONG);
      await count(renamed, 'the finding of the first branch again', found => found > 0);
      await closeAll();
      await vscode.workspace.fs.delete(renamed);
      await count(renamed, 'nothing is left of a note that the branch lacks', found => found === 0);
    },
  },
  {
    name: 'A picture and a huge file that are called notes hold up no other',
    async run() {
      const inFolder = (name: string) => vscode.Uri.joinPath(folder(), name);
      const [picture, huge, note] = ['picture.md', 'huge.md', 'beside.md'].map(inFolder);
      if (picture === undefined || huge === undefined || note === undefined) throw new Error('three names');
      const bytes = Uint8Array.from({ length: 300_000 }, (_, at) => (at * 7919) % 256);
      await vscode.workspace.fs.writeFile(picture, bytes);
      await write(huge, `${'The axle fits.\n\n'.repeat(1_100_000)}${WRONG}`);
      await write(note, WRONG);
      try {
        await count(note, 'the finding of the note beside them', found => found > 0);
        equal(
          [picture, huge].flatMap(uri => shownFindings({ uri })).length,
          0,
          'findings of what is no note',
        );
      } finally {
        for (const uri of [picture, huge, note]) await vscode.workspace.fs.delete(uri);
      }
      await count(note, 'nothing is left of it', found => found === 0);
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
    name: 'A closed note that an ignore file leaves out has no findings, until the file says it no more',
    async run() {
      const careless = vscode.Uri.joinPath(folder(), 'careless', '01-calipers.md');
      const other = vscode.Uri.joinPath(folder(), 'careless', '03-micrometers.md');
      await count(careless, 'the findings of a careless note', found => found > 0);
      const file = vscode.Uri.joinPath(folder(), '.leastwiseignore');
      await write(file, 'careless/01-*\n');
      try {
        await count(careless, 'no finding of a note that is left out', found => found === 0);
        holds(shownFindings({ uri: other }).length > 0, 'the others keep theirs');
      } finally {
        await vscode.workspace.fs.delete(file);
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
        readonly checked: number;
        readonly findings: number;
        readonly notesWithFindings: number;
      }>('leastwise.checkWorkspace');
      holds(result.notes > 10, `notes: ${result.notes}`);
      equal(result.checked, result.notes, 'notes checked');
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
