import { has, inPreview, openByName, previewOf } from './preview-editor.mjs';

/** What a note with hostile names does to the real preview: it should be drawn like any other and do nothing. */
export async function hostileFaults({ page }) {
  const said = [];
  const listen = dialog => {
    said.push(`a dialog says ${dialog.message()}`);
    dialog.dismiss().catch(() => {});
  };
  page.on('dialog', listen);
  try {
    await openByName(page, 'hostile.md');
    const find = () => previewOf(page, 'The end of the bad note', frame => has(frame, '.leastwise-worked'));
    return [...said, ...(await inPreview(find, frame => frame.evaluate(harmIn)))];
  } finally {
    page.off('dialog', listen);
  }
}

/** Run inside of the page. */
function harmIn() {
  const allowed = new Set(
    'DIV TABLE CAPTION THEAD TBODY TR TH TD UL LI P STRONG CODE FIGURE FIGCAPTION SPAN svg title desc g path text rect circle ellipse tspan math semantics mrow mi mn mo mtext mspace annotation msup mstyle mfrac'.split(
      ' ',
    ),
  );
  const cards = [...document.querySelectorAll('.leastwise-card')];
  const faults = [];
  if (window.harmed !== undefined || window.parent.harmed !== undefined)
    faults.push('a script of the note was run');
  if (document.querySelector('#code-csp-warning') !== null)
    faults.push('the editor had to stop something of the note');
  if (cards.length !== 4) faults.push(`${cards.length} cards for 4 blocks`);
  if (cards.filter(card => card.querySelector('svg[role=img] path.vernier') !== null).length !== 4)
    faults.push('not every block is drawn');
  for (const element of cards.flatMap(card => [...card.querySelectorAll('*')])) {
    if (!allowed.has(element.tagName)) faults.push(`an element ${element.tagName} in a card`);
    for (const { name, value } of element.attributes)
      if (/^on|href|src/i.test(name)) faults.push(`an attribute ${name}="${value}" in a card`);
  }
  for (const card of cards)
    if (/[\u200e\u200f\u202a-\u202e\u2066-\u2069]/.test(card.textContent))
      faults.push('a mark of the writing direction in a card');
  const texts = cards.map(card => card.textContent).join(' ');
  if (!texts.includes('<script>window.harmed = 1</script>'))
    faults.push('the words of the note do not stand for themselves');
  return faults;
}
