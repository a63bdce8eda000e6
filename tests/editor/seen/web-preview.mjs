import { writeSettingsOfFolder } from '../settings.mjs';
import { servedPage } from '../suite-in-browser.mjs';
import { makeWorkspace } from '../workspace.mjs';
import { accessibilityFaults } from './accessibility.mjs';
import { figureFaults } from './measure-figures.mjs';
import { AS_PREVIEW, has, inPreview, previewOf } from './preview-editor.mjs';

/** Such an editor has its parts to fetch and to build before it shows anything. */
const WITHIN = 120_000;

/** A look at a preview in the editor that is nothing but a page, where the extension is a worker of the browser. */
export async function webPreviewFaults(browser, [example]) {
  const workspace = makeWorkspace();
  const undo = [workspace.remove];
  try {
    writeSettingsOfFolder(workspace.notes, AS_PREVIEW);
    const server = await servedPage(workspace.notes);
    undo.unshift(() =>
      new Promise(resolve => server.close(resolve)).finally(() => server.closeAllConnections()),
    );
    const page = await browser.newPage();
    undo.unshift(() => page.close());
    page.setDefaultTimeout(WITHIN);
    await page.goto(`http://w.localhost:${server.address().port}/`, { waitUntil: 'commit' });
    // Such an editor cannot search for a file by its name.
    await page.getByRole('treeitem', { name: example.name }).dblclick();
    const find = () => previewOf(page, example.heading, frame => has(frame, '.leastwise-worked'));
    return await inPreview(find, async frame => {
      const [blocks, cards, figures] = await frame.evaluate(() =>
        ['pre > code.language-measurement', 'pre + .leastwise-card', '.leastwise-card svg[role=img]'].map(
          selector => document.querySelectorAll(selector).length,
        ),
      );
      const isWhole = blocks === cards && cards > 0 && figures > 0;
      return [
        ...(isWhole ? [] : [`${cards} cards with ${figures} figures for ${blocks} blocks`]),
        ...(await accessibilityFaults(frame, '.leastwise-card')),
        ...(await frame.evaluate(figureFaults, { smallestText: 9 })),
      ];
    });
  } finally {
    for (const each of undo) await each();
  }
}
