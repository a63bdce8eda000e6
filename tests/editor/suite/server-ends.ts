import * as vscode from 'vscode';
import { AXLE } from './bench-notes.ts';
import type { EditorTest } from './editor-test.ts';
import { findingShown } from './findings.ts';
import { openNote } from './open-note.ts';
import { typeOver } from './typing.ts';

/** A server that is started again knows what the old one knew. */
export const SERVER: readonly EditorTest[] = [
  {
    name: 'After a restart a note is checked as before',
    async run() {
      const editor = await openNote(AXLE);
      await Promise.all([1, 2].map(() => vscode.commands.executeCommand('leastwise.restartServer')));
      await typeOver(editor, '1.27 cm', '1.28 cm');
      await findingShown(editor.document, 'the wrong reading', ({ at }) => at === '1.28 cm');
    },
  },
];
