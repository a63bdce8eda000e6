import type { DisplayWidth } from './display-width.ts';

/** Breaks a text between its words into lines of at most `room` columns; a longer word stands alone. */
export function wrap(text: string, room: number, displayWidth: DisplayWidth): readonly string[] {
  const [first = '', ...words] = text.split(' ');
  const lines: string[] = [];
  let line = first;
  let width = displayWidth(first);
  for (const word of words) {
    const wordWidth = displayWidth(word);
    if (width + 1 + wordWidth > room) {
      lines.push(line);
      line = word;
      width = wordWidth;
    } else {
      line += ` ${word}`;
      width += 1 + wordWidth;
    }
  }
  return [...lines, line];
}
