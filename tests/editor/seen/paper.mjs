import { contrastFaults } from './measure-contrast.mjs';
import { dressed } from './theme-looks.mjs';

/** What finds room between the margins of an upright A4 page, in CSS pixels. Source: ISO 216, margins of 1 cm. */
const PAGE = { width: 718, height: 1047 };

/**
 * What comes out on paper, from the darkest of the themes: all of it black on white, no figure and no table cut by the
 * end of a page.
 */
export async function paperFaults(page, frame, look, picture) {
  await dressed(frame, look);
  const { width, height } = page.viewportSize();
  await page.emulateMedia({ media: 'print' });
  await page.setViewportSize({ width: PAGE.width, height });
  try {
    const { faults, measured } = await frame.evaluate(contrastFaults, { onPaper: true });
    if (picture !== null) await picture.whole(frame, '03-print');
    const cut = await frame.evaluate(cutFaults, PAGE.height);
    return [...faults, ...cut, ...(measured < 20 ? [`only ${measured} colours were found`] : [])];
  } finally {
    await page.emulateMedia({ media: null });
    await page.setViewportSize({ width, height });
  }
}

/** Run inside of the page. */
function cutFaults(pageHeight) {
  return [...document.querySelectorAll('.leastwise-card :is(table, figure)')].flatMap(element => {
    const { height } = element.getBoundingClientRect();
    const name = `${element.tagName.toLowerCase()} of ${element.closest('.leastwise-card').getAttribute('aria-label')}`;
    return [
      ...(getComputedStyle(element).breakInside.startsWith('avoid')
        ? []
        : [`the ${name} may be cut by a page's end`]),
      ...(height <= pageHeight ? [] : [`the ${name} is ${Math.round(height)} px high, more than a page`]),
    ];
  });
}
