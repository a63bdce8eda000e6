import assert from 'node:assert/strict';
import {
  chooseAction,
  clickLink,
  command,
  framed,
  inOneLine,
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

  const told = await pointAt(page, wrong.first());
  assert.match(told, /1\.28 cm.* but 1\.27 cm is right/);
  await picture('2-what-is-wrong');
  await clickLink(page, page.locator('.monaco-hover:visible a', { hasText: 'wrong-value' }).first());
  await framed(page, 'A link is not equal to what the records make it');
  await picture('3-the-rule');
  await command(page, 'View: Close Editor');

  await page.locator('.view-line', { hasText: '1.28' }).first().click();
  const offered = (await openActions(page)).map(inOneLine);
  assert.ok(offered.includes('Write 1.27 cm'), `offered are ${offered.join(' | ')}`);
  await picture('4-what-can-be-done');
  await chooseAction(page, 'Write 1.27 cm');
  await page.locator('.view-line', { hasText: '1.27' }).first().waitFor();
  await wrong.first().waitFor({ state: 'detached' });

  await page.keyboard.press('End');
  await page.keyboard.press('Enter');
  await page.keyboard.type('corr');
  await page.keyboard.press('Control+Space');
  const next = page.locator('.suggest-widget.visible .monaco-list-row');
  await next.filter({ hasText: 'corrected reading' }).first().waitFor();
  await picture('5-what-comes-next');
  await page.keyboard.press('Escape');
  for (let key = 0; key < 5; key += 1) await page.keyboard.press('Backspace');
  await wrong.first().waitFor({ state: 'detached' });

  const working = await pointAt(page, page.locator('.view-line', { hasText: 'corrected' }).first());
  assert.match(working, /observed reading - zero error = 1\.27 cm - 0\.04 cm = 1\.23 cm/);
  await page.waitForFunction(() => document.querySelector('.monaco-hover img')?.naturalWidth > 0);
  await picture('6-the-working-of-a-claim');
  await pointAway(page);

  await command(page, 'leastwise: Insert the Working');
  await page.locator('.view-line', { hasText: 'aligned' }).first().waitFor();
  const shown = await preview(page);
  assert.equal(await shown.locator('.katex-error').count(), 0, 'formulas that cannot be set');
  assert.equal(await shown.getByText('axle: vernier calipers').count(), 1, 'the card of the block');
  await picture('7-the-solution-and-its-preview');
  await command(page, 'View: Close Editor');

  await page.locator('.view-line', { hasText: 'The axle of a hub' }).first().click();
  await page.keyboard.press('Control+End');
  await command(page, 'leastwise: New Block from an Instrument…');
  const instrument = page.locator('.quick-input-list .monaco-list-row', { hasText: 'screw gauge' }).first();
  await instrument.waitFor();
  await picture('8-a-new-block');
  await instrument.click();
  await page.locator('.view-line', { hasText: 'circular scale' }).first().waitFor();
  await picture('9-the-new-block');

  await command(page, 'leastwise: Check the Workspace');
  const result = page.locator('.statusbar-item', { hasText: /\d+ findings in \d+ of \d+ notes/ });
  const counted = inOneLine(await result.first().textContent());
  await page.locator('.markers-panel .monaco-list-row').first().waitFor();
  assert.equal(await wrong.count(), 0, 'faults of the new block as it stands');
  await page.locator('[id="status.languageStatus"]').first().click();
  await page.getByText(`Workspace: ${counted}`).first().waitFor();
  await picture('10-the-workspace');
  await page.keyboard.press('Escape');

  await command(page, 'View: Toggle Panel Visibility');
  await command(page, 'Welcome: Open Walkthrough...');
  const walkthrough = page.locator('.quick-input-list .monaco-list-row', {
    hasText: 'Write your first measurement',
  });
  await walkthrough.first().click();
  await page.getByText('Begin a block').first().waitFor();
  await picture('11-the-walkthrough');
}
walk.size = { width: 1280, height: 800 };

/** Opens the preview beside the note, and waits until its math is set. */
export async function preview(page) {
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
