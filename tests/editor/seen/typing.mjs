import { command, framed } from '../hands.mjs';
import { has, openByName, until } from './preview-editor.mjs';

/** Farther than this nothing may move that was not written, in CSS pixels. */
const STILL = 3;

/**
 * What happens in the preview beside a note while a line of it is broken and mended: the last good figure stays, and
 * the block stays where it was.
 */
export async function typingFaults({ page }) {
  try {
    return await faultsWhileWriting(page);
  } finally {
    // Saved, so that nothing asks for it when the note is closed.
    await page.keyboard.press('Control+s');
    await command(page, 'View: Close All Editors');
  }
}

async function faultsWhileWriting(page) {
  await page.setViewportSize({ width: 1400, height: 800 });
  await openByName(page, 'written.markdown');
  const line = page.locator('.view-line', { hasText: 'coinciding division' }).first();
  await line.click();
  await page.keyboard.press('Control+k');
  await page.keyboard.press('v');
  const shown = () =>
    framed(page, 'A long day at the bench', frame => has(frame, '.leastwise-card .leastwise-worked'));
  await shown();
  const { width, height } = page.viewportSize();
  await page.mouse.move(width * 0.75, height / 2);
  // One that has only just been shown is filled anew at times, and then stands at its top again.
  const frame = await until('the preview goes down', shown, async each => {
    await page.mouse.wheel(0, 150);
    return await goesDownWithin(each, 1000);
  });
  await atRest(frame);
  await line.click();
  await page.keyboard.press('End');
  await atRest(frame);
  const good = await figureOf(frame);
  await frame.evaluate(watch);
  await page.keyboard.type(' x y', { delay: 60 });
  await until(
    'the earlier figure',
    () => frame.locator('.leastwise-earlier svg').count(),
    count => count === 1,
  );
  const kept = await figureOf(frame);
  for (let key = 0; key < 4; key += 1) await page.keyboard.press('Backspace');
  await until(
    'the figure of now',
    () => frame.locator('.leastwise-earlier').count(),
    count => count === 0,
  );
  const mended = await figureOf(frame);
  await atRest(frame);
  const { moved, samples } = await frame.evaluate(() => window.leastwiseWatched());
  return [
    ...(good !== null && good === kept ? [] : ['a broken line takes the last good figure away']),
    ...(good === mended ? [] : ['a mended line does not bring the same figure back']),
    ...(samples > 10 && moved <= STILL
      ? []
      : [`the block moved by ${moved} px in ${samples} looks while a line was written`]),
  ];
}

function figureOf(frame) {
  return frame.evaluate(() => document.querySelector('.leastwise-card svg')?.outerHTML ?? null);
}

/** Waits until a frame has stood still for a while. */
function atRest(frame) {
  return frame.evaluate(async () => {
    for (let still = 0, last = null; still < 20; ) {
      await new Promise(resolve => requestAnimationFrame(resolve));
      still = window.scrollY === last ? still + 1 : 0;
      last = window.scrollY;
    }
  });
}

/** Run inside of the page: looks at each picture that is drawn where the block stands. */
function watch() {
  const top = () => document.querySelector('pre > code.language-measurement').getBoundingClientRect().top;
  const first = top();
  let [moved, samples] = [0, 0];
  const look = () => {
    moved = Math.max(moved, Math.abs(top() - first));
    samples += 1;
    requestAnimationFrame(look);
  };
  look();
  window.leastwiseWatched = () => ({ moved, samples });
}

/** Whether a preview goes down within some milliseconds. */
function goesDownWithin(frame, milliseconds) {
  return frame
    .waitForFunction(() => window.scrollY > 40, null, { timeout: milliseconds })
    .then(() => true)
    .catch(() => false);
}
