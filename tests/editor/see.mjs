// Goes through the editor as a person does, in a dark and in a light theme, with the package as it is installed, fails
// where something is not as it should be, and keeps pictures of what there is to see. With
// --dark or --light it does so in one only, with --trouble only where not all is well.
// With --media it makes the pictures of the README anew instead.
import { execFileSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { makePackage } from '../../client/package.mjs';
import { atRest } from './hands.mjs';
import { haveEditor } from './have-editor.mjs';
import { startEditor } from './start-editor.mjs';
import { NOTE, walk } from './walk.mjs';
import { walkForMedia } from './walk-for-media.mjs';
import { walkInTrouble } from './walk-in-trouble.mjs';
import { makeWorkspace, PROJECT } from './workspace.mjs';

/** How long a person would wait for anything, in milliseconds, on a machine that has much else to do. */
const WITHIN = 180_000;

const THEMES = { dark: 'Default Dark Modern', light: 'Default Light Modern' };

const isForMedia = process.argv.includes('--media');
const wanted = process.argv.slice(2).find(each => !each.startsWith('--'));
const pictures = isForMedia
  ? join(PROJECT, 'client/media')
  : resolve(wanted ?? join(import.meta.dirname, 'out/pictures'));

process.exitCode = 1;
for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) process.once(signal, () => process.exit(1));
try {
  mkdirSync(pictures, { recursive: true });
  const editor = haveEditor();
  const { openBrowser } = await import('./open-browser.mjs');
  const vsix = makePackage(join(import.meta.dirname, 'out/leastwise.vsix'));
  const browser = await openBrowser(editor);
  try {
    if (isForMedia) await lookAround(editor, browser, vsix, 'light', '', walkForMedia);
    else {
      const fair = process.argv.includes('--trouble') ? [] : chosenThemes();
      for (const name of fair) await lookAround(editor, browser, vsix, name, `${name}-`, walk);
      await lookAround(editor, browser, vsix, chosenThemes()[0], '', walkInTrouble);
    }
  } finally {
    await browser.close();
  }
  console.log(`The pictures are in ${pictures}`);
  process.exitCode = 0;
} catch (error) {
  console.error(error);
}

function chosenThemes() {
  const names = Object.keys(THEMES);
  const chosen = names.filter(name => process.argv.includes(`--${name}`));
  return chosen.length === 0 ? names : chosen;
}

async function lookAround(editor, browser, vsix, theme, prefix, way) {
  const workspace = makeWorkspace();
  const undo = [workspace.remove];
  try {
    writeFileSync(join(workspace.notes, 'axle.md'), NOTE);
    const folders = ['--server-data-dir', workspace.data, '--extensions-dir', workspace.extensions];
    execFileSync(editor.node, [editor.server, ...folders, '--install-extension', vsix], { stdio: 'ignore' });
    const server = await startEditor(editor, {
      data: workspace.data,
      more: ['--extensions-dir', workspace.extensions],
      settings: {
        'workbench.colorTheme': THEMES[theme],
        'workbench.secondarySideBar.defaultVisibility': 'hidden',
        ...way.settings,
      },
    });
    undo.unshift(server.stop);
    const page = await browser.newPage({ viewport: way.size });
    undo.unshift(() => page.close());
    page.setDefaultTimeout(WITHIN);
    const begun = Date.now();
    const picture = async what => {
      await atRest(page);
      await page.screenshot({ path: join(pictures, `${prefix}${what}.png`) });
      console.log(`${theme} │ ${what} (${((Date.now() - begun) / 1000).toFixed(1)} s)`);
    };
    try {
      await page.goto(`${server.address}/?${new URLSearchParams({ folder: workspace.notes })}`);
      await way(page, picture, { notes: workspace.notes, group: server.group });
    } catch (error) {
      await page.screenshot({ path: join(import.meta.dirname, 'out', `${theme}-where-it-stopped.png`) });
      throw error;
    }
  } finally {
    for (const each of undo) await each();
  }
}
