import * as vscode from 'vscode';
import { COMMANDS } from './commands.ts';
import type { EditorTest } from './editor-test.ts';
import { WORKINGS } from './inserting-workings.ts';
import { NOTES } from './kinds-of-notes.ts';
import { closeAll } from './open-note.ts';
import { PREVIEW } from './preview.ts';
import { SERVER } from './server-ends.ts';
import { SETTINGS } from './settings.ts';
import { EDITING } from './while-editing.ts';
import { WORKSPACE } from './workspace.ts';

const TESTS: readonly EditorTest[] = [
  ...EDITING,
  ...WORKINGS,
  ...NOTES,
  ...COMMANDS,
  ...PREVIEW,
  ...SETTINGS,
  ...WORKSPACE,
  ...SERVER,
];

/** Words of the names of the tests to be run; all of them where it is empty. */
declare const NAMED: string;

/** Where this many do not hold, nothing does: the rest would only wait in vain. */
const GIVE_UP_AFTER = 4;

/** What the suite says begins with this, for the editor talks too. */
const MARK = 'suite │ ';

/** Called by the editor: runs every test, and throws where one did not hold. */
export async function run(): Promise<void> {
  say(`in ${vscode.env.appName} ${vscode.version}`);
  const failed: string[] = [];
  const tests = TESTS.filter(({ name }) => name.includes(NAMED));
  for (const { name, run: runTest } of tests) {
    const begun = Date.now();
    try {
      await runTest();
      say(`holds  ${name} (${((Date.now() - begun) / 1000).toFixed(1)} s)`);
    } catch (error) {
      failed.push(name);
      say(`FAILS  ${name}\n${error instanceof Error ? error.stack : String(error)}`);
    }
    await closeAll();
    if (failed.length >= GIVE_UP_AFTER) throw new Error(`Given up after ${failed.join('; ')}`);
  }
  say(`${tests.length - failed.length} of ${tests.length} tests hold`);
  if (failed.length > 0) throw new Error(`Not so: ${failed.join('; ')}`);
}

function say(text: string): void {
  console.log(MARK + text);
}
