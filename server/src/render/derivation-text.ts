import type { Derivation, Step } from '../engine/derivation.ts';
import { expressionText } from './expression-text.ts';
import { plainWords, sentence } from './plain-words.ts';

/**
 * Derivations as plain text, without a final line break.
 *
 * The title stands at the margin, the steps are indented; a chain that is longer than a line is broken before its signs
 * of equality, which then stand below each other.
 */
export function derivationText(derivations: readonly Derivation[]): string {
  return derivations
    .map(({ title, steps }) => [plainWords(title), ...steps.flatMap(linesOf)].join('\n'))
    .join('\n\n');
}

const MOST_COLUMNS = 100;
const INDENT = '  ';

function linesOf(step: Step): readonly string[] {
  switch (step.kind) {
    case 'remark':
      return broken(sentence(step.text));
    case 'line':
      return [...reasonLines(step.reason), ...chainLines(step)];
    case 'table':
      return [...reasonLines(step.reason), ...tableLines(step)];
  }
}

function reasonLines(reason: string | null): readonly string[] {
  return reason === null || reason.trim() === '' ? [] : broken(sentence(reason));
}

/** A sentence over as many lines as it needs. */
function broken(text: string): readonly string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (line !== '' && columns(INDENT + longer) > MOST_COLUMNS) {
      lines.push(INDENT + line);
      line = word;
    } else line = longer;
  }
  return [...lines, INDENT + line];
}

function chainLines({ left, links }: Extract<Step, { readonly kind: 'line' }>): readonly string[] {
  const start = INDENT + plainWords(expressionText(left));
  const written = links.map(({ relation, value, error }) => {
    const behind = error === null ? '' : ` ± ${expressionText(error)}`;
    return plainWords(`${relation} ${expressionText(value)}${behind}`);
  });
  const whole = [start, ...written].join(' ');
  if (columns(whole) <= MOST_COLUMNS || written.length < 2) return [whole];
  const gap = ' '.repeat(columns(start));
  return written.map((link, at) => `${at === 0 ? start : gap} ${link}`);
}

function tableLines({ header, rows }: Extract<Step, { readonly kind: 'table' }>): readonly string[] {
  const texts = [header, ...rows].map(row =>
    row.map(cell => plainWords(typeof cell === 'string' ? cell : expressionText(cell))),
  );
  const count = texts.reduce((most, row) => Math.max(most, row.length), 0);
  const widths = Array.from({ length: count }, (_, at) =>
    texts.reduce((most, row) => Math.max(most, columns(row[at] ?? '')), 0),
  );
  return texts.map(row => {
    const cells = widths.map((width, at) => {
      const cell = row[at] ?? '';
      return cell + ' '.repeat(width - columns(cell));
    });
    return `${INDENT}${cells.join('  ')}`.trimEnd();
  });
}

const WIDE =
  /[\p{Script=Han}\p{Script=Hiragana}\p{Script=Katakana}\p{Script=Hangul}\p{Emoji_Presentation}\uff01-\uff60]/u;

/** How many columns of a terminal a text takes, near enough for a table. */
function columns(text: string): number {
  let count = 0;
  for (const character of text) count += /\p{M}/u.test(character) ? 0 : WIDE.test(character) ? 2 : 1;
  return count;
}
