import { has, inPreview, openByName, previewOf } from './preview-editor.mjs';
import { hisName } from './special-notes.mjs';

/**
 * What the previews give away to an apprentice, who is told no values: each value that the tutor's card has as worked out
 * is looked for in the apprentice's card, in its words, its figure and all its attributes.
 */
export async function tellingFaults({ page }, examples) {
  const faults = [];
  for (const { name, heading } of examples) {
    await openByName(page, name);
    const told = await inPreview(
      () => previewOf(page, heading, frame => has(frame, '.leastwise-card .leastwise-worked')),
      frame => frame.evaluate(cardsOf),
    );
    await openByName(page, hisName(name));
    const shown = await inPreview(
      () => previewOf(page, heading, tellsNothing),
      frame => frame.evaluate(cardsOf),
    );
    if (shown.length !== told.length || told.flatMap(({ worked }) => worked).length === 0)
      faults.push(`${name}: ${shown.length} cards for ${told.length} of the tutor`);
    for (const [at, { markup, words }] of shown.entries()) {
      const known = told[at]?.recorded ?? [];
      const given = (told[at]?.worked ?? []).filter(value => !known.some(each => each.includes(value)));
      for (const value of given)
        if (words.includes(value)) faults.push(`${name}, card ${at + 1} tells an apprentice ${value}`);
      for (const mark of ['data-', 'coincidence', 'class="dimensions"', 'leastwise-worked', '✓'])
        if (markup.includes(mark)) faults.push(`${name}, card ${at + 1} has ${mark} for an apprentice`);
    }
  }
  return faults;
}

async function tellsNothing(frame) {
  return (await has(frame, '.leastwise-card')) && !(await has(frame, '.leastwise-card .leastwise-worked'));
}

/** Run inside of the page: the cards with their values, as plain text without what is set twice. */
function cardsOf() {
  const plain = element => {
    const copy = element.cloneNode(true);
    for (const twice of copy.querySelectorAll('.katex-mathml')) twice.remove();
    const attributes = [copy, ...copy.querySelectorAll('*')].flatMap(each =>
      [...each.attributes]
        .filter(({ name }) => /^(aria-label|alt|title|data-)/.test(name))
        .map(({ value }) => value),
    );
    return [copy.textContent, ...attributes]
      .join(' ¦ ')
      .replace(/[\s\u00a0]+/g, ' ')
      .trim();
  };
  return [...document.querySelectorAll('.leastwise-card')].map(card => ({
    markup: card.outerHTML,
    words: plain(card),
    worked: [...card.querySelectorAll('.leastwise-worked td, td.leastwise-worked')]
      .map(plain)
      .filter(value => /\d \S/.test(value) || /\d[.]\d/.test(value)),
    recorded: [
      ...card.querySelectorAll(
        'tr:not(.leastwise-worked) td:not(.leastwise-worked), .leastwise-asked, .leastwise-choices',
      ),
    ].map(plain),
  }));
}
