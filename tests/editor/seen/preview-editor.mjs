import { execFileSync } from 'node:child_process';
import { command, framed } from '../hands.mjs';
import { startEditor } from '../start-editor.mjs';
import { makeWorkspace } from '../workspace.mjs';

/** A note comes up as its preview at once; one that is to be written ends in .markdown. */
export const AS_PREVIEW = { 'workbench.editorAssociations': { '*.md': 'vscode.markdown.preview.editor' } };

/** The previews alone are to be seen: what surrounds them would only take their room. */
const BARE = {
  ...AS_PREVIEW,
  'workbench.secondarySideBar.defaultVisibility': 'hidden',
  'workbench.activityBar.location': 'hidden',
  'workbench.statusBar.visible': false,
  'workbench.editor.showTabs': 'none',
  'workbench.layoutControl.enabled': false,
  'window.menuBarVisibility': 'hidden',
  'window.commandCenter': false,
  'breadcrumbs.enabled': false,
  'editor.minimap.enabled': false,
};

const WITHIN = 60_000;

/**
 * An editor with the package in it and a copy of the examples, shown in a page of its own; `close` ends it all.
 *
 * @param {{ node: string, server: string }} editor
 * @param {import('playwright-core').Browser} browser
 * @param {{ vsix: string, prepare(notes: string): void }} options the package, and what writes further notes
 */
export async function previewEditor(editor, browser, { vsix, prepare }) {
  const workspace = makeWorkspace();
  const undo = [workspace.remove];
  const close = async () => {
    for (const each of undo) await each();
  };
  try {
    prepare(workspace.notes);
    const folders = ['--extensions-dir', workspace.extensions];
    const install = ['--server-data-dir', workspace.data, ...folders, '--install-extension', vsix];
    execFileSync(editor.node, [editor.server, ...install], { stdio: 'ignore' });
    const server = await startEditor(editor, { data: workspace.data, more: folders, settings: BARE });
    undo.unshift(server.stop);
    const page = await browser.newPage({ viewport: { width: 1000, height: 900 } });
    undo.unshift(() => page.close());
    page.setDefaultTimeout(WITHIN);
    await page.goto(`${server.address}/?${new URLSearchParams({ folder: workspace.notes })}`);
    await page.getByRole('treeitem', { name: '01-calipers.md' }).waitFor();
    await command(page, 'View: Close Primary Side Bar');
    return { page, notes: workspace.notes, close };
  } catch (error) {
    await close();
    throw error;
  }
}

/**
 * Opens a file by its name, as one who types it, and once more where another was taken, for the list may move under the
 * pointer; a preview that has the keyboard gives it back first. No two files may have the name.
 */
export async function openByName(page, name) {
  for (let left = 5; ; left -= 1) {
    await giveBackKeys(page);
    await page.keyboard.press('Control+p');
    const input = page.locator('.quick-input-widget input[type=text]');
    await input.waitFor();
    await input.fill(name);
    const label = page.locator('.label-name').getByText(name, { exact: true });
    await page.locator('.quick-input-list .monaco-list-row', { has: label }).first().click();
    if (await isShown(page, name)) return;
    if (left === 0) throw new Error(`${name} was not opened, but ${await page.title()}`);
    await page.keyboard.press('Escape');
  }
}

function isShown(page, name) {
  return page
    .waitForFunction(start => document.title.replace(/^● /, '').startsWith(start), name, { timeout: 10_000 })
    .then(
      () => true,
      () => false,
    );
}

export function giveBackKeys(page) {
  return page.evaluate(() => document.activeElement?.blur());
}

/** The frame in which a note's preview stands, once its cards say what they may. */
export async function previewOf(page, words, isReady = frame => has(frame, '.leastwise-card')) {
  return await framed(page, words, async frame => {
    await frame.evaluate(() => document.fonts.ready);
    return await isReady(frame);
  });
}

/**
 * Does something with a preview; once more from the start where the editor put another frame in its place meanwhile, as it
 * does when settings or the theme have changed.
 *
 * @param {() => Promise<import('playwright-core').Frame>} find
 */
export async function inPreview(find, use) {
  for (let left = 5; ; left -= 1) {
    const frame = await find();
    try {
      return await use(frame);
    } catch (error) {
      if (left === 0 || !/detached|destroyed|closed/.test(String(error))) throw error;
    }
  }
}

export async function has(frame, selector) {
  return (await frame.locator(selector).count()) > 0;
}

/** Asks again until the answer fits. */
export async function until(what, ask, fits) {
  const end = Date.now() + WITHIN;
  for (;;) {
    const answer = await ask();
    if (await fits(answer)) return answer;
    if (Date.now() > end)
      throw new Error(`${what}: still ${typeof answer === 'object' ? 'not so' : JSON.stringify(answer)}`);
    await new Promise(resolve => setTimeout(resolve, 50));
  }
}
