import type { Card, CardChoice, CardValue } from './card.ts';
import { valueLatex } from './value-latex.ts';
import { plainMarkdown, titleMarkdown, wordsMarkdown } from './words-markdown.ts';

/**
 * A card as lines of Markdown: a table of quantities, one of readings, the question with its choices. No line break
 * stands at the end, and the lines may be put into a list or a quotation one by one.
 */
export function cardMarkdown(card: Card): readonly string[] {
  const parts = [titleLines(card), quantityLines(card), ...readingLines(card), questionLines(card)].filter(
    lines => lines.length > 0,
  );
  return parts.flatMap((lines, at) => (at === 0 ? lines : ['', ...lines]));
}

function titleLines({ name, instrument }: Card): readonly string[] {
  const title = [name, instrument].flatMap(each => (each === null ? [] : [plainMarkdown(each)])).join(': ');
  return title === '' ? [] : [`**${title}**`];
}

function quantityLines({ lines }: Card): readonly string[] {
  if (lines.length === 0) return [];
  return [
    '| quantity | value |',
    '| :--- | :--- |',
    ...lines.map(({ label, value }) => `| ${titleMarkdown(label)} | ${valueMarkdown(value)} |`),
  ];
}

function readingLines({ readings }: Card): readonly (readonly string[])[] {
  return readings.map(({ header, rows }) => [
    `| ${header.map(wordsMarkdown).join(' | ')} |`,
    `|${' :--- |'.repeat(header.length)}`,
    ...rows.map(row => `| ${row.map(valueMarkdown).join(' | ')} |`),
  ]);
}

function questionLines({ asked, choices }: Card): readonly string[] {
  const find = asked === null ? [] : [`Find: ${wordsMarkdown(asked)}`];
  const list = choices.map(choiceLine);
  return [...find, ...(find.length > 0 && list.length > 0 ? [''] : []), ...list];
}

function choiceLine({ letter, text, isRight }: CardChoice): string {
  const words = `(${plainMarkdown(letter)}) ${plainMarkdown(text)}`;
  return isRight === true ? `- **${words}** ✓` : `- ${words}`;
}

function valueMarkdown({ text, quantity }: CardValue): string {
  if (text === '') return ' ';
  return quantity === null ? plainMarkdown(text) : `$${valueLatex(text, quantity)}$`;
}
