// What a person does with an editor: point, choose, type. Each waits until the editor is ready for it.

const WITHIN = 180_000;

export async function openFromTree(page, name) {
  await page.getByRole('treeitem', { name }).dblclick();
  await page.locator('.monaco-editor .view-line').first().waitFor();
}

/** Opens a note by its name, from wherever it lies. */
export async function openByName(page, name) {
  // Before it shows the folder the editor listens to no key.
  await page.getByRole('treeitem').first().waitFor();
  await page.keyboard.press('F1');
  const input = page.locator('.quick-input-widget input[type=text]');
  await input.waitFor();
  await input.fill(name);
  await page.locator('.quick-input-list .monaco-list-row', { hasText: name }).first().click();
  await page.locator('.tab.active', { hasText: name }).waitFor();
  await page.locator('.monaco-editor .view-line').first().waitFor();
}

/** Rests the pointer on something until the editor says what it knows of it, and gives what it says. */
export async function pointAt(page, locator) {
  const { x, y, height, width } = await locator.boundingBox();
  await page.mouse.move(x + Math.min(40, width / 2), y + height / 2);
  const hover = page
    .locator('.monaco-hover:visible')
    .filter({ hasNotText: /^\s*Loading/ })
    .first();
  await hover.waitFor();
  return inOneLine(await hover.textContent());
}

/** What somebody reads, whatever the line breaks and the kinds of blanks. */
export function inOneLine(text) {
  return text.replace(/\s+/g, ' ').trim();
}

/** Waits until nothing moves or fades any more. */
export async function atRest(page) {
  await page.evaluate(async () => {
    const moving = () =>
      document.getAnimations().filter(each => each.effect?.getComputedTiming().endTime !== Infinity);
    await Promise.allSettled(moving().map(each => each.finished));
    await new Promise(requestAnimationFrame);
  });
}

/** Clicks on a link that may go over several lines, where its middle may be no part of it. */
export async function clickLink(page, link) {
  const { x, y, width, height } = await link.evaluate(each => each.getClientRects()[0].toJSON());
  await page.mouse.click(x + width / 2, y + height / 2);
}

/** Moves the pointer out of the way, so that nothing is shown for it. */
export async function pointAway(page) {
  const { width, height } = page.viewportSize();
  await page.mouse.move(width / 2, height - 5);
  await page.locator('.monaco-hover:visible').first().waitFor({ state: 'hidden' });
}

/** Opens the list of what can be done at the cursor, with nothing else in its way, and gives what it shows. */
export async function openActions(page) {
  await pointAway(page);
  await page.keyboard.press('Control+.');
  await page.locator('.action-widget .monaco-list-row.focused').first().waitFor();
  return await page.locator('.action-widget .monaco-list-row').allTextContents();
}

/** Goes down the list of actions to the one of a title, and takes it. */
export async function chooseAction(page, title) {
  const focused = page.locator('.action-widget .monaco-list-row.focused');
  for (let row = 0; row < 30; row += 1) {
    if ((await focused.first().textContent()).trim() === title) return await page.keyboard.press('Enter');
    await page.keyboard.press('ArrowDown');
  }
  throw new Error(`No action is called ${title}`);
}

/** Runs a command by its title, as the palette lists it. */
export async function command(page, title) {
  await page.keyboard.press('F1');
  const input = page.locator('.quick-input-widget input[type=text]');
  await input.waitFor();
  await input.fill(`>${title}`);
  const label = page.locator('.label-name').getByText(title, { exact: true });
  await page.locator('.quick-input-list .monaco-list-row', { has: label }).first().click();
}

/**
 * The frame that shows a text and is ready; looked for until it is there, for an editor may put another in its place and
 * has that hidden until it is drawn.
 */
export async function framed(page, text, isReady = async () => true) {
  const end = Date.now() + WITHIN;
  for (;;) {
    for (const frame of page.frames())
      if (frame !== page.mainFrame() && (await shows(frame, text, isReady))) return frame;
    if (Date.now() > end) throw new Error(`No frame shows ${JSON.stringify(text)}`);
    await new Promise(resolve => setTimeout(resolve, 100));
  }
}

async function shows(frame, text, isReady) {
  try {
    const isSeen = await frame.evaluate(
      () => window.frameElement?.checkVisibility({ visibilityProperty: true }) ?? true,
    );
    return isSeen && (await frame.getByText(text).count()) > 0 && (await isReady(frame));
  } catch {
    // It was taken away while it was asked.
    return false;
  }
}
