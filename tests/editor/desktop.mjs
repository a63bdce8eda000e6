// Runs the suite in the desktop editor, which it fetches: for a machine with a network and a screen.
import { execFileSync } from 'node:child_process';
import { join } from 'node:path';
import { runTests } from '@vscode/test-electron';
import { bundleSuite } from './bundle-suite.mjs';
import { writeSettings } from './settings.mjs';
import { makeWorkspace, PROJECT } from './workspace.mjs';

const workspace = makeWorkspace();
try {
  execFileSync(process.execPath, ['server/build.mjs'], { cwd: PROJECT, stdio: 'inherit' });
  writeSettings(workspace.data);
  await runTests({
    extensionDevelopmentPath: PROJECT,
    extensionTestsPath: await bundleSuite('node'),
    launchArgs: [
      workspace.notes,
      '--user-data-dir',
      workspace.data,
      '--extensions-dir',
      workspace.extensions,
    ],
    cachePath: join(import.meta.dirname, 'out/vscode'),
  });
} catch (error) {
  console.error(error instanceof Error ? error.message : error);
  process.exitCode = 1;
} finally {
  workspace.remove();
}
