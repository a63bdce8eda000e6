import { plainWords, sentence } from '../render/plain-words.ts';

/** A piece of what an editor shows beside the note. */
export type Told =
  /** What is told of, with other names for it. */
  | { readonly kind: 'title'; readonly name: string; readonly also: readonly string[] }
  /** A sentence without its final stop. */
  | { readonly kind: 'words'; readonly text: string }
  | { readonly kind: 'fact'; readonly label: string; readonly text: string; readonly isFormula: boolean }
  /** Lines that keep their layout. */
  | { readonly kind: 'lines'; readonly text: string };

/** Writes it as Markdown, without math and HTML, which an editor's pop-ups do not show, or as plain text. */
export function toldText(parts: readonly Told[], isMarkdown: boolean): string {
  const written: string[] = [];
  for (const [at, part] of parts.entries()) {
    const text = isMarkdown ? markdownOf(part) : plainOf(part);
    if (part.kind === 'fact' && parts[at - 1]?.kind === 'fact') written.push(`${written.pop()}\n${text}`);
    else written.push(text);
  }
  return written.join('\n\n');
}

function markdownOf(part: Told): string {
  switch (part.kind) {
    case 'title':
      return `**${asWords(part.name)}**${alsoText(part.also, name => codeSpan(name))}`;
    case 'words':
      return asWords(sentence(part.text));
    case 'fact':
      return `- ${part.label}: ${part.isFormula ? codeSpan(part.text) : asWords(part.text)}`;
    case 'lines':
      return `\`\`\`text\n${part.text}\n\`\`\``;
  }
}

function plainOf(part: Told): string {
  switch (part.kind) {
    case 'title':
      return `${part.name}${alsoText(part.also, name => name)}`;
    case 'words':
      return plainWords(sentence(part.text));
    case 'fact':
      return `${part.label}: ${plainWords(part.text)}`;
    case 'lines':
      return part.text;
  }
}

/** Words as they are, but for the code among them: no sign of theirs means anything to Markdown. */
function asWords(text: string): string {
  return text
    .split(/(`[^`]*`)/)
    .map((piece, at) => (at % 2 === 1 ? piece : piece.replace(/[\\`*_[\]<>$|~&#]/g, '\\$&')))
    .join('');
}

const MOST_NAMES = 4;

function alsoText(also: readonly string[], written: (name: string) => string): string {
  return also.length === 0 ? '' : ` (${also.slice(0, MOST_NAMES).map(written).join(', ')})`;
}

function codeSpan(text: string): string {
  const fence = text.includes('`') ? '``' : '`';
  return `${fence}${text}${fence}`;
}
