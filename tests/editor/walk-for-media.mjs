import { chooseAction, command, openActions, openFromTree, pointAt, pointAway } from './hands.mjs';
import { preview } from './walk.mjs';

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
