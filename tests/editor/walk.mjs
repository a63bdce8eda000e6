import {
  chooseAction,
  clickLink,
  command,
  framed,
  openActions,
  openFromTree,
  pointAt,
  pointAway,
} from './hands.mjs';

export const NOTE = `# The axle of a hub

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

/** The way of a person who meets a wrong reading, mends it, has it worked out, and looks at all the rest. */
export async function walk(page, picture) {
  await openFromTree(page, 'axle.md');
  const wrong = page.locator('.squiggly-error');
  await wrong.first().waitFor();
  await picture('1-wrong-reading');

  await pointAt(page, wrong.first());
  await picture('2-what-is-wrong');
  await clickLink(page, page.locator('.monaco-hover:visible a', { hasText: 'wrong-value' }).first());
  await framed(page, 'A link is not equal to what the records make it');
  await picture('3-the-rule');
  await command(page, 'View: Close Editor');

  await page.locator('.view-line', { hasText: '1.28' }).first().click();
  await openActions(page);
  await picture('4-what-can-be-done');
  await chooseAction(page, 'Write 1.27 cm');
  await page.locator('.view-line', { hasText: '1.27' }).first().waitFor();
  await wrong.first().waitFor({ state: 'detached' });

  await page.keyboard.press('End');
  await page.keyboard.press('Enter');
  await page.keyboard.type('corr');
  await page.keyboard.press('Control+Space');
  await page.locator('.suggest-widget.visible .monaco-list-row').first().waitFor();
  await picture('5-what-comes-next');
  await page.keyboard.press('Escape');
  for (let key = 0; key < 5; key += 1) await page.keyboard.press('Backspace');

  await pointAt(page, page.locator('.view-line', { hasText: 'corrected' }).first());
  await picture('6-the-working-of-a-claim');
  await pointAway(page);

  await command(page, 'leastwise: Insert the Working');
  await page.locator('.view-line', { hasText: 'aligned' }).first().waitFor();
  await preview(page);
  await picture('7-the-solution-and-its-preview');
  await command(page, 'View: Close Editor');
  await page.locator('.view-line', { hasText: 'The axle of a hub' }).first().click();

  await command(page, 'leastwise: New Block from an Instrument…');
  await page.locator('.quick-input-list .monaco-list-row', { hasText: 'screw gauge' }).first().waitFor();
  await picture('8-a-new-block');
  await page.keyboard.press('Escape');

  await command(page, 'leastwise: Check the Workspace');
  await page.locator('.markers-panel .monaco-list-row').first().waitFor();
  await page.locator('.language-status-icon, [id="status.languageStatus"]').first().click();
  await picture('9-the-workspace');
  await page.keyboard.press('Escape');

  await command(page, 'View: Toggle Panel Visibility');
  await command(page, 'Welcome: Open Walkthrough...');
  const walkthrough = page.locator('.quick-input-list .monaco-list-row', {
    hasText: 'Write your first measurement',
  });
  await walkthrough.first().click();
  await page.getByText('Begin a block').first().waitFor();
  await picture('10-the-walkthrough');
}
walk.size = { width: 1280, height: 800 };

/** What the README and the walkthrough show: the note alone, large enough to be read. */
export async function walkForMedia(page, picture) {
  await openFromTree(page, 'axle.md');
  const wrong = page.locator('.squiggly-error');
  await wrong.first().waitFor();
  await command(page, 'View: Close Primary Side Bar');
  await pointAt(page, wrong.first());
  await picture('finding');
  await pointAway(page);
  await page.locator('.view-line', { hasText: '1.28' }).first().click();
  await openActions(page);
  await chooseAction(page, 'Write 1.27 cm');
  await wrong.first().waitFor({ state: 'detached' });
  await command(page, 'leastwise: Insert the Working');
  await page.locator('.view-line', { hasText: 'aligned' }).first().waitFor();
  const shown = await preview(page);
  await pointAway(page);
  await scrolledTo(shown.getByText('axle: vernier calipers'));
  await picture('preview');
  await scrolledTo(shown.getByText('Zero error', { exact: true }).last());
  await page.locator('.view-line', { hasText: 'Zero error' }).first().waitFor();
  await picture('working');
}
walkForMedia.size = { width: 1160, height: 640 };
walkForMedia.settings = {
  'editor.minimap.enabled': false,
  'breadcrumbs.enabled': false,
  'workbench.activityBar.location': 'hidden',
};

/** Scrolls as far as it takes to see something at the top, and waits until all has come to rest. */
async function scrolledTo(locator) {
  await locator.evaluate(async element => {
    element.scrollIntoView({ block: 'start' });
    for (let still = 0, last = null; still < 20; ) {
      await new Promise(resolve => requestAnimationFrame(resolve));
      const { y } = element.getBoundingClientRect();
      still = y === last ? still + 1 : 0;
      last = y;
    }
  });
}

/** Opens the preview beside the note, and waits until its math is set. */
async function preview(page) {
  await page.keyboard.press('Control+k');
  await page.keyboard.press('v');
  return await framed(page, 'The axle fits', async shown => {
    await shown.evaluate(() => document.fonts.ready);
    // The card below the block tells values as soon as it knows that it may.
    return (
      (await shown.locator('.katex').count()) > 0 &&
      (await shown.locator('svg', { hasText: '7 × 0.01 cm' }).count()) > 0
    );
  });
}
