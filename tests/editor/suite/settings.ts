import * as vscode from 'vscode';
import { AXLE } from './bench-notes.ts';
import type { EditorTest } from './editor-test.ts';
import { equal } from './equal.ts';
import { findingShown, nothingShown, shownFindings } from './findings.ts';
import { folder, openNote } from './open-note.ts';
import { until } from './until.ts';

const WRONG = AXLE.replace('1.27 cm', '1.28 cm').replace('corrected reading = 1.23 cm\n', '');

/** What is set, in the editor or in a file beside the notes, holds at once. */
export const SETTINGS: readonly EditorTest[] = [
  {
    name: 'A rule that the settings turn off is silent, and speaks again afterwards',
    async run() {
      const { document } = await openNote(WRONG);
      await wrongReading(document);
      const settings = vscode.workspace.getConfiguration('leastwise');
      await settings.update('rules', { 'wrong-value': 'off' }, false);
      try {
        await nothingShown(document);
      } finally {
        await settings.update('rules', undefined, false);
      }
      await wrongReading(document);
    },
  },
  {
    name: 'A configuration file beside the notes holds as soon as it is there, until it is gone',
    async run() {
      const { document } = await openNote(WRONG);
      await wrongReading(document);
      const file = vscode.Uri.joinPath(folder(), 'leastwise.config.json');
      await write(file, JSON.stringify({ rules: { 'wrong-value': 'off' } }));
      try {
        await nothingShown(document);
      } finally {
        await vscode.workspace.fs.delete(file);
      }
      await wrongReading(document);
    },
  },
  {
    name: 'A broken configuration file is underlined once, where it is broken, and what it does not say is as usual',
    async run() {
      const { document } = await openNote(WRONG);
      await wrongReading(document);
      const file = vscode.Uri.joinPath(folder(), 'leastwise.config.json');
      await write(file, '{\n  "student": false,\n  "way": \n}');
      try {
        const troubles = await until(
          'what is wrong with the file',
          () => shownFindings({ uri: file }),
          found => found.length > 0,
        );
        equal(
          troubles.map(({ diagnostic }) => diagnostic.range.start.line),
          [3],
          'the lines of the troubles',
        );
        await wrongReading(document);
        await write(file, '{}');
        await until(
          'nothing is wrong any more',
          () => shownFindings({ uri: file }).length,
          found => found === 0,
        );
      } finally {
        await vscode.workspace.fs.delete(file);
      }
    },
  },
];

function wrongReading(document: vscode.TextDocument) {
  return findingShown(document, 'the wrong reading', ({ at }) => at === '1.28 cm');
}

async function write(uri: vscode.Uri, text: string): Promise<void> {
  await vscode.workspace.fs.writeFile(uri, new TextEncoder().encode(text));
}
