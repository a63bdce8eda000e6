import { mkdirSync } from 'node:fs';
import { join } from 'node:path';

const TALLEST = 16_000;

/** Keeps pictures of whole previews in a folder, to be looked at; none where nobody looks, for they take the longest. */
export function picturesIn(folder, page) {
  mkdirSync(folder, { recursive: true });
  return {
    folder,
    /** The whole of a preview, however far it would have to be scrolled. */
    async whole(frame, name) {
      if (process.env.CI !== undefined) return;
      const before = page.viewportSize();
      const height = await frame.evaluate(() => {
        return Math.ceil(
          Math.max(document.querySelector('.markdown-body').getBoundingClientRect().bottom, 400) +
            window.scrollY,
        );
      });
      await page.setViewportSize({ width: before.width, height: Math.min(height + 60, TALLEST) });
      await frame.evaluate(
        () => new Promise(resolve => requestAnimationFrame(() => requestAnimationFrame(resolve))),
      );
      await page.screenshot({ path: join(folder, `${name}.png`) });
      await page.setViewportSize(before);
    },
  };
}
