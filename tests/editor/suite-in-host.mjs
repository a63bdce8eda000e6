import { awaitSuite } from './await-suite.mjs';
import { bundleSuite } from './bundle-suite.mjs';
import { startEditor } from './start-editor.mjs';
import { makeWorkspace, PROJECT } from './workspace.mjs';

/** Runs the suite in the extension host of an editor that has a machine of its own: a process, as on a desktop. */
export async function suiteInHost(editor, browser, say) {
  const workspace = makeWorkspace();
  const undo = [workspace.remove];
  try {
    const suite = await bundleSuite('node');
    const server = await startEditor(editor, {
      data: workspace.data,
      more: ['--enable-smoke-test-driver', '--extensions-dir', workspace.extensions],
    });
    undo.unshift(server.stop);
    const page = await browser.newPage();
    undo.unshift(() => page.close());
    const remote = path => `vscode-remote://${server.authority}${path}`;
    const payload = [
      ['extensionDevelopmentPath', remote(PROJECT)],
      ['extensionTestsPath', remote(suite)],
    ];
    const query = new URLSearchParams({ folder: workspace.notes, payload: JSON.stringify(payload) });
    return await awaitSuite(page, { address: `${server.address}/?${query}`, logs: server.logs, say });
  } finally {
    for (const each of undo) await each();
  }
}
