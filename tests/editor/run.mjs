// Runs the suite in a real editor, as on a desktop and in a browser alone, and looks at the figures that its preview
// shows; fails where there is no editor.
import { execFileSync } from 'node:child_process';
import { haveEditor } from './have-editor.mjs';
import { PROJECT } from './workspace.mjs';

/** What may be asked for by its name: `npm run test:editor -- browser`. */
const HOSTS = {
  host: async () => (await import('./suite-in-host.mjs')).suiteInHost,
  browser: async () => (await import('./suite-in-browser.mjs')).suiteInBrowser,
  figures: async () => (await import('./figures-seen.mjs')).figuresSeen,
};

process.exitCode = 1;
for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) process.once(signal, () => process.exit(1));
try {
  process.exitCode = await runAll(process.argv.slice(2));
} catch (error) {
  console.error(error instanceof Error ? error.message : error);
}

/** 0 where every test held wherever it ran. */
async function runAll(wanted) {
  const editor = haveEditor();
  // What they rest on is there only now.
  const { openBrowser } = await import('./open-browser.mjs');
  const { grammarFaults } = await import('./grammar.mjs');
  const faults = await grammarFaults();
  if (faults.length > 0) throw new Error(faults.join('\n'));
  execFileSync(process.execPath, ['server/build.mjs'], { cwd: PROJECT, stdio: 'inherit' });
  const browser = await openBrowser(editor);
  try {
    let worst = 0;
    for (const [name, load] of Object.entries(HOSTS)) {
      if (wanted.length > 0 && !wanted.includes(name)) continue;
      const suite = await load();
      worst = Math.max(worst, await suite(editor, browser, text => console.log(`${name} │ ${text}`)));
    }
    return worst;
  } finally {
    await browser.close();
  }
}
