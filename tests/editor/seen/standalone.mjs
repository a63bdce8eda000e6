import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { accessibilityFaults } from './accessibility.mjs';
import { contrastFaults } from './measure-contrast.mjs';
import { figureFaults } from './measure-figures.mjs';

/** As drawn, no text is smaller than this, in CSS pixels. */
const SMALLEST_TEXT = 10;

/** A look at the drawings that are made as files, in both styles, as a page of a site shows them at their own size. */
export async function standaloneFaults(browser, notes, examples, library) {
  const faults = [];
  let count = 0;
  const page = await browser.newPage({ viewport: { width: 1600, height: 900 } });
  try {
    for (const { name } of examples)
      for (const style of ['question', 'worked']) {
        const drawn = library.drawNote(readFileSync(join(notes, name), 'utf8'), style);
        count += drawn.length;
        const figures = drawn.map(({ figure }) => `<figure>${figure.svg}</figure>`).join('');
        await page.setContent(
          `<!doctype html><html lang="en"><head><title>${name}</title></head><body><main><h1>${name}</h1>${figures}</main></body></html>`,
        );
        const { faults: pale } = await page.evaluate(contrastFaults, { onPaper: true });
        const found = [
          ...(await accessibilityFaults(page, null)),
          ...(await page.evaluate(figureFaults, { smallestText: SMALLEST_TEXT })),
          ...pale,
        ];
        faults.push(...found.map(fault => `${name}, drawn as ${style}: ${fault}`));
      }
  } finally {
    await page.close();
  }
  return count > 2 * examples.length ? faults : [`only ${count} figures are drawn`];
}
