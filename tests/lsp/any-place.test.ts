import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Range } from 'vscode-languageserver';
import { completionAt } from '../../server/src/lsp/features/completion.ts';
import { hoverAt } from '../../server/src/lsp/features/hover.ts';
import { inlayHintsOf } from '../../server/src/lsp/features/inlay-hint.ts';
import { selectionRangesAt } from '../../server/src/lsp/features/selection-range.ts';
import { semanticTokensOf } from '../../server/src/lsp/features/semantic-tokens.ts';
import { HOSTILE } from '../properties/generators/hostile-note.ts';
import { openNote } from '../support/open-note.ts';

const EXAMPLES = readdirSync('examples')
  .filter(name => name.endsWith('.md'))
  .map(name => [name, readFileSync(`examples/${name}`, 'utf8')] as const);

const MANNER = { hasSnippets: true, hasInsertMode: true };

/** Asks everything at so many places of a note. */
function askAt(text: string, places: number, triggers: readonly (string | null)[]): void {
  const open = openNote(text);
  const holds = ({ start, end }: Range, offset: number): boolean =>
    open.document.offsetAt(start) <= offset && offset <= open.document.offsetAt(end);
  for (let at = 1; at <= places; at++) {
    const offset = Math.floor((text.length * at) / (places + 1));
    const hover = hoverAt(open, offset, at % 2 === 0);
    if (hover?.range !== undefined) expect(holds(hover.range, offset)).toBe(true);
    for (const trigger of triggers) {
      for (const { textEdit, label } of completionAt(open, offset, { ...MANNER, trigger })?.items ?? []) {
        const { range } = textEdit as { range: Range };
        expect(label).not.toBe('');
        expect(range.start.line).toBe(range.end.line);
        expect(open.document.offsetAt(range.end)).toBe(offset);
      }
    }
    for (const range of selectionRangesAt(open, [offset])) expect(holds(range.range, offset)).toBe(true);
  }
  const whole = { start: 0, end: text.length };
  const { data } = semanticTokensOf(open, whole);
  // No token begins before the one above has ended.
  for (let at = 5; at < data.length; at += 5)
    if (data[at] === 0) expect(data[at + 1]).toBeGreaterThanOrEqual(data[at - 3]!);
  for (const { label } of inlayHintsOf(open, whole)) expect(label).not.toBe('');
}

/** What takes long by its mere length is looked at elsewhere. */
const SHORT = 250_000;

describe('whatever is asked at whichever place', () => {
  it.each(EXAMPLES)('has an answer that fits the place: %s', (_, text) =>
    askAt(text, 40, [null, ' ', '\n', '|']),
  );

  const hostile = Object.values(HOSTILE).flatMap(notes => Object.entries(notes));
  it.each(hostile.filter(([, text]) => text.length < SHORT))(
    'has an answer on text that nobody writes: %s',
    (_, text) => askAt(text, 2, [null]),
  );
});
