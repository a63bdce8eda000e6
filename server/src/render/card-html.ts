import type { Card, CardChoice, CardValue } from './card.ts';
import { escaped } from './figures/svg.ts';
import { valueLatex } from './value-latex.ts';

/** Sets LaTeX as math; null where nobody can. */
export type SetMath = ((latex: string) => string) | null;

/** A card's tables and its question as HTML; every word of a note is escaped. No script, no style of its own. */
export function cardHtml(card: Card, setMath: SetMath): string {
  return [quantityTable(card, setMath), ...readingTables(card, setMath), questionList(card)].join('');
}

/** What a card is about, in words: `axle-sleeve: vernier calipers`. */
export function cardTitle({ name, instrument }: Card): string {
  return [name, instrument].filter(each => each !== null).join(': ');
}

function quantityTable(card: Card, setMath: SetMath): string {
  const title = cardTitle(card);
  const caption = title === '' ? '' : `<caption>${escaped(title)}</caption>`;
  const rows = card.lines.map(
    ({ label, value, isWorkedOut }) =>
      `<tr${worked(isWorkedOut)}><th scope="row">${escaped(label)}</th><td>${valueHtml(value, setMath)}</td></tr>`,
  );
  return rows.length === 0 && caption === ''
    ? ''
    : `<table class="leastwise-quantities">${caption}<tbody>${rows.join('')}</tbody></table>`;
}

function readingTables({ readings }: Card, setMath: SetMath): readonly string[] {
  return readings.map(({ header, rows }) => {
    const head = header.map(text => `<th scope="col">${escaped(text)}</th>`).join('');
    const body = rows
      .map(
        row =>
          `<tr>${row.map(cell => `<td${worked(cell.isWorkedOut)}>${valueHtml(cell, setMath)}</td>`).join('')}</tr>`,
      )
      .join('');
    return `<table class="leastwise-readings"><thead><tr>${head}</tr></thead><tbody>${body}</tbody></table>`;
  });
}

function questionList({ asked, choices }: Card): string {
  const find = asked === null ? '' : `<p class="leastwise-asked">Find: ${escaped(asked)}</p>`;
  const list =
    choices.length === 0 ? '' : `<ul class="leastwise-choices">${choices.map(choiceItem).join('')}</ul>`;
  return find + list;
}

function choiceItem({ letter, text, isRight }: CardChoice): string {
  const words = `(${escaped(letter)}) ${escaped(text)}`;
  return isRight === true ? `<li><strong>${words}</strong> ✓ right</li>` : `<li>${words}</li>`;
}

function worked(isWorkedOut: boolean): string {
  return isWorkedOut ? ' class="leastwise-worked"' : '';
}

function valueHtml({ text, quantity }: CardValue, setMath: SetMath): string {
  return setMath === null || quantity === null || text === ''
    ? escaped(text)
    : setMath(valueLatex(text, quantity));
}
