import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { accessibilityFaults } from './accessibility.mjs';
import { contrastFaults } from './measure-contrast.mjs';
import { figureFaults } from './measure-figures.mjs';
import { paperFaults } from './paper.mjs';
import { has, inPreview, openByName, previewOf } from './preview-editor.mjs';
import { dressed, themeLooks } from './theme-looks.mjs';

/**
 * A preview beside its note in a usual window, and one that has the window to itself; and the smallest text in either,
 * in CSS pixels: what is smaller is not read at an arm's length.
 */
const WIDTHS = [
  { width: 600, smallestText: 9 },
  { width: 1000, smallestText: 9.5 },
];
const CARDS = '.leastwise-card';
/** In these the accessibility checker looks as well, and pictures are made; of the other themes colours are measured. */
const USUAL = ['dark', 'light'];
/** One note stands for all where only the colours are others. */
const SAMPLE = '03';

/** A look at the previews of all examples: in every theme, at two widths and on paper. */
export async function previewFaults({ page, notes }, examples, library, picture) {
  const faults = [];
  let looks = null;
  for (const { name, heading } of examples) {
    const blame = (what, found) => faults.push(...found.map(fault => `${name}, ${what}: ${fault}`));
    const isSample = name.startsWith(SAMPLE);
    await openByName(page, name);
    const shown = () => previewOf(page, heading, frame => has(frame, '.leastwise-card .leastwise-worked'));
    looks ??= (await shown()) && (await themeLooks(page, heading));
    const { blocks } = library.checkNote(readFileSync(join(notes, name), 'utf8'));
    blame('cards', await inPreview(shown, frame => cardFaults(frame, blocks.length)));
    for (const { width, smallestText } of WIDTHS) {
      await page.setViewportSize({ width, height: 900 });
      blame(
        `${width} px wide`,
        await inPreview(shown, frame => frame.evaluate(figureFaults, { smallestText })),
      );
    }
    for (const [theme, look] of Object.entries(looks)) {
      const isPictured = USUAL.includes(theme) || (isSample && theme === 'high-contrast');
      const found = await inPreview(shown, async frame => {
        await dressed(frame, look);
        const { faults: pale, measured } = await frame.evaluate(contrastFaults, { onPaper: false });
        const refused = USUAL.includes(theme) ? await accessibilityFaults(frame, CARDS) : [];
        if (isPictured) await picture.whole(frame, `${name.slice(0, 2)}-${theme}`);
        return [...pale, ...refused, ...(measured < 20 ? [`only ${measured} colours were found`] : [])];
      });
      blame(theme, found);
    }
    const onPaper = frame => paperFaults(page, frame, looks.dark, isSample ? picture : null);
    blame('on paper', await inPreview(shown, onPaper));
  }
  return faults;
}

/** Whether there is a card right below every block, and none elsewhere. */
async function cardFaults(frame, blocks) {
  const [cards, below] = await frame.evaluate(
    selectors => selectors.map(selector => document.querySelectorAll(selector).length),
    [CARDS, `pre + ${CARDS}`],
  );
  return cards === blocks && below === blocks
    ? []
    : [`${blocks} blocks, ${cards} cards, ${below} of them right below a block`];
}
