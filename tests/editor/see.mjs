// Goes through the editor as a person does, in a dark and in a light theme, and keeps pictures of what there is to see.
import { execFileSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { haveEditor } from './have-editor.mjs';
import { installExtension } from './install-extension.mjs';
import { startEditor } from './start-editor.mjs';
import { makeWorkspace, PROJECT } from './workspace.mjs';

const SIZE = { width: 1280, height: 800 };
const WITHIN = 90_000;

const THEMES = { dark: 'Default Dark Modern', light: 'Default Light Modern' };

const NOTE = `# The axle of a hub

The old pair divides a centimetre into ten.

\`\`\`measurement axle
instrument: vernier calipers
main scale: 1 cm = 10 MSD
vernier scale: 10 VSD = 9 MSD
least count = S - V = 0.01 cm
closed: vernier zero right, division 4   # with clean jaws
zero error = +0.04 cm

main scale reading: 1.2 cm
coinciding division: 7
observed reading = MSR + n × LC = 1.28 cm
corrected reading = 1.23 cm
\`\`\`

The axle fits.
`;

process.exitCode = 1;
for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) process.once(signal, () => process.exit(1));
const pictures = resolve(process.argv[2] ?? join(import.meta.dirname, 'out/pictures'));
try {
  mkdirSync(pictures, { recursive: true });
  const editor = haveEditor();
  const { openBrowser } = await import('./open-browser.mjs');
  execFileSync(process.execPath, ['server/build.mjs'], { cwd: PROJECT, stdio: 'inherit' });
  const browser = await openBrowser(editor);
  try {
    for (const [name, theme] of Object.entries(THEMES)) await lookAround(editor, browser, name, theme);
  } finally {
    await browser.close();
  }
  console.log(`The pictures are in ${pictures}`);
  process.exitCode = 0;
} catch (error) {
  console.error(error);
}

async function lookAround(editor, browser, name, theme) {
  const workspace = makeWorkspace();
  const undo = [workspace.remove];
  try {
    writeFileSync(join(workspace.notes, 'axle.md'), NOTE);
    installExtension(workspace.extensions);
    const server = await startEditor(editor, {
      data: workspace.data,
      more: ['--extensions-dir', workspace.extensions],
      settings: { 'workbench.colorTheme': theme, 'workbench.secondarySideBar.defaultVisibility': 'hidden' },
    });
    undo.unshift(server.stop);
    const page = await browser.newPage({ viewport: SIZE });
    undo.unshift(() => page.close());
    page.setDefaultTimeout(WITHIN);
    const picture = what => page.screenshot({ path: join(pictures, `${name}-${what}.png`) });
    try {
      await walk(page, `${server.address}/?${new URLSearchParams({ folder: workspace.notes })}`, picture);
    } catch (error) {
      await picture('where-it-stopped');
      throw error;
    }
  } finally {
    for (const each of undo) await each();
  }
}

/** The way of a person who meets a wrong reading, mends it, and inserts the solution. */
async function walk(page, address, picture) {
  await page.goto(address);
  await page.getByRole('treeitem', { name: 'axle.md' }).dblclick();
  const wrong = page.locator('.squiggly-error');
  await wrong.first().waitFor();
  await picture('1-wrong-reading');

  await page.mouse.move(...(await middleOf(wrong.first())));
  await page.locator('.monaco-hover:visible').first().waitFor();
  await picture('2-what-is-wrong');

  await page.mouse.click(...(await middleOf(wrong.first())));
  await openActions(page);
  await picture('3-what-can-be-done');
  await choose(page, 'Write 1.27 cm');
  await page.locator('.view-line', { hasText: '1.27' }).first().waitFor();
  await wrong.first().waitFor({ state: 'detached' });
  await openActions(page);
  await picture('4-what-else');
  await page.keyboard.press('Escape');

  const claim = page.locator('.view-line', { hasText: 'corrected' }).first();
  const { x, y } = await claim.boundingBox();
  await page.mouse.move(x + 40, y + 8);
  await page.locator('.monaco-hover:visible').first().waitFor();
  await picture('5-the-working-of-a-claim');

  await openActions(page);
  await choose(page, 'Insert the worked solution below the block');
  await page.locator('.view-line', { hasText: 'aligned' }).first().waitFor();
  await picture('6-the-solution');
  await page.keyboard.press('Control+k');
  await page.keyboard.press('v');
  const preview = await framed(page, 'The axle fits');
  await preview.locator('.katex').first().waitFor();
  await preview.evaluate(() => document.fonts.ready);
  await picture('7-the-preview');
}

/** Opens the list of what can be done at the cursor, with nothing else in its way. */
async function openActions(page) {
  await page.mouse.move(SIZE.width / 2, SIZE.height - 5);
  await page.locator('.monaco-hover:visible').first().waitFor({ state: 'hidden' });
  await page.keyboard.press('Control+.');
  await page.locator('.action-widget .monaco-list-row.focused').first().waitFor();
}

/** Goes down the list of actions to the one of a title, and takes it. */
async function choose(page, title) {
  const focused = page.locator('.action-widget .monaco-list-row.focused');
  for (let row = 0; row < 30; row += 1) {
    if ((await focused.first().textContent()).trim() === title) return await page.keyboard.press('Enter');
    await page.keyboard.press('ArrowDown');
  }
  throw new Error(`No action is called ${title}`);
}

async function middleOf(locator) {
  const { x, y, width, height } = await locator.boundingBox();
  return [x + width / 2, y + height / 2];
}

/** The frame that shows a text, which is inside others; looked for until it is there. */
async function framed(page, text) {
  const end = Date.now() + WITHIN;
  for (;;) {
    for (const frame of page.frames())
      if (
        (await frame
          .getByText(text)
          .count()
          .catch(() => 0)) > 0 &&
        frame !== page.mainFrame()
      )
        return frame;
    if (Date.now() > end) throw new Error(`No frame shows ${JSON.stringify(text)}`);
    await new Promise(resolve => setTimeout(resolve, 100));
  }
}
