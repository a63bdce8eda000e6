import * as vscode from 'vscode';
import type { EditorTest } from './editor-test.ts';
import { WORKINGS } from './inserting-workings.ts';
import { NOTES } from './kinds-of-notes.ts';
import { closeAll } from './open-note.ts';
import { EDITING } from './while-editing.ts';

const TESTS: readonly EditorTest[] = [...EDITING, ...WORKINGS, ...NOTES];

/** What the suite says begins with this, for the editor talks too. */
const MARK = 'suite │ ';

/** Called by the editor: runs every test, and throws where one did not hold. */
export async function run(): Promise<void> {
  say(`in ${vscode.env.appName} ${vscode.version}`);
  const failed: string[] = [];
  for (const { name, run: runTest } of TESTS) {
    try {
      await runTest();
      say(`holds  ${name}`);
    } catch (error) {
      failed.push(name);
      say(`FAILS  ${name}\n${error instanceof Error ? error.stack : String(error)}`);
    }
    await closeAll();
  }
  say(`${TESTS.length - failed.length} of ${TESTS.length} tests hold`);
  if (failed.length > 0) throw new Error(`Not so: ${failed.join('; ')}`);
}

function say(text: string): void {
  console.log(MARK + text);
}
