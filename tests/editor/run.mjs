// Runs the suite in the extension host of a real editor, and fails where there is none.
import { execFileSync } from 'node:child_process';
import { bundleSuite } from './bundle-suite.mjs';
import { haveEditor } from './have-editor.mjs';
import { startEditor } from './start-editor.mjs';
import { makeWorkspace, PROJECT } from './workspace.mjs';

const END_WITHIN = 600_000;

process.exitCode = 1;
for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) process.once(signal, () => process.exit(1));
try {
  process.exitCode = await runSuite();
} catch (error) {
  console.error(error instanceof Error ? error.message : error);
}

/** 0 where every test of the suite held. */
async function runSuite() {
  const editor = haveEditor();
  // What it rests on is there only now.
  const { openBrowser } = await import('./open-browser.mjs');
  const { grammarFaults } = await import('./grammar.mjs');
  const faults = await grammarFaults();
  if (faults.length > 0) throw new Error(faults.join('\n'));
  execFileSync(process.execPath, ['server/build.mjs'], { cwd: PROJECT, stdio: 'inherit' });
  const suite = await bundleSuite();
  const workspace = makeWorkspace();
  const undo = [workspace.remove];
  try {
    const server = await startEditor(editor, {
      data: workspace.data,
      more: ['--enable-smoke-test-driver', '--extensions-dir', workspace.extensions],
    });
    undo.unshift(server.stop);
    const browser = await openBrowser(editor);
    undo.unshift(() => browser.close());
    const code = await suiteIn(await browser.newPage(), server, workspace.notes, suite);
    if (code !== 0) console.error(`\nThe extension host said\n${server.logs()}`);
    return code;
  } finally {
    for (const each of undo) await each();
  }
}

/** Opens the notes with the extension and the suite, and waits for the suite's end. */
async function suiteIn(page, { address, authority, logs }, notes, suite) {
  const remote = path => `vscode-remote://${authority}${path}`;
  const payload = [
    ['extensionDevelopmentPath', remote(PROJECT)],
    ['extensionTestsPath', remote(suite)],
  ];
  let late;
  try {
    const ended = new Promise((resolve, reject) => {
      const giveUp = why => reject(new Error(`${why}\n${logs()}`));
      late = setTimeout(giveUp, END_WITHIN, `The suite did not end within ${END_WITHIN / 1000} s`);
      page.once('crash', () => giveUp('The browser broke down'));
      page.exposeFunction('codeAutomationExit', resolve).catch(reject);
    });
    await page.exposeFunction('codeAutomationLog', (_type, args) => {
      const text = args.join(' ');
      if (text.includes('suite │')) console.log(text);
    });
    const query = new URLSearchParams({ folder: notes, payload: JSON.stringify(payload) });
    await page.goto(`${address}/?${query}`);
    return await ended;
  } finally {
    clearTimeout(late);
  }
}
