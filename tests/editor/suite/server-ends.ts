import * as vscode from 'vscode';
import { AXLE } from './bench-notes.ts';
import type { EditorTest } from './editor-test.ts';
import { equal } from './equal.ts';
import { findingShown } from './findings.ts';
import { openNote } from './open-note.ts';
import { typeOver } from './typing.ts';
import { until } from './until.ts';

/** Whether the extension runs in a page, where its server is no process. */
declare const IN_BROWSER: boolean;

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
  ...(IN_BROWSER || process.platform !== 'linux' ? [] : [afterItsEnd()]),
];

function afterItsEnd(): EditorTest {
  return {
    name: 'A server that dies is started again, and what is typed meanwhile is checked',
    async run() {
      const editor = await openNote(AXLE);
      const [old, ...more] = await serverProcesses();
      equal([typeof old, more], ['number', []], 'the server');
      process.kill(old ?? 0, 'SIGKILL');
      await typeOver(editor, '1.27 cm', '1.28 cm');
      await findingShown(editor.document, 'the wrong reading', ({ at }) => at === '1.28 cm');
      await until(
        'another server, and one only',
        serverProcesses,
        found => found.length === 1 && found[0] !== old,
      );
    },
  };
}

/** The processes of the language server that this extension host has started, by Linux's table of processes. */
async function serverProcesses(): Promise<readonly number[]> {
  const { readdirSync, readFileSync } = await import('node:fs');
  return readdirSync('/proc')
    .filter(name => /^\d+$/.test(name))
    .filter(name => {
      try {
        const [, parent] = /^PPid:\s*(\d+)$/m.exec(readFileSync(`/proc/${name}/status`, 'utf8')) ?? [];
        return (
          Number(parent) === process.pid &&
          readFileSync(`/proc/${name}/cmdline`, 'utf8').includes('server.cjs')
        );
      } catch {
        // It has ended since.
        return false;
      }
    })
    .map(Number);
}
