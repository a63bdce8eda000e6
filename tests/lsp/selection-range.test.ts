import { describe, expect, it } from 'vitest';
import type { SelectionRange } from 'vscode-languageserver';
import { selectionRangesAt } from '../../server/src/lsp/features/selection-range.ts';
import { placeOf } from '../support/edited-text.ts';
import { lspClient } from '../support/lsp-client.ts';
import { openNoteAt } from '../support/open-note.ts';
import { RIGHT_NOTE } from '../support/workshop-notes.ts';

function grown(marked: string): readonly string[] {
  const { open, offset } = openNoteAt(marked);
  const texts: string[] = [];
  for (
    let at: SelectionRange | undefined = selectionRangesAt(open, [offset])[0];
    at !== undefined;
    at = at.parent
  )
    texts.push(open.document.getText(at.range));
  return texts;
}

describe('a growing selection', () => {
  it('takes a number, its value, its link, the chain, the line, the block', () => {
    const texts = grown(RIGHT_NOTE.replace('0.002 cm =', '0.0‸02 cm ='));
    expect(texts.slice(0, 5)).toEqual([
      '0.002',
      '0.002 cm',
      '2.45 cm + 17 × 0.002 cm',
      '2.45 cm + 17 × 0.002 cm = 2.484 cm',
      'observed reading = 2.45 cm + 17 × 0.002 cm = 2.484 cm',
    ]);
    expect(texts[5]).toMatch(/^instrument: [\s\S]*2\.478 cm$/);
    expect(texts[6]).toMatch(/^```measurement [\s\S]*```$/);
    expect(texts).toHaveLength(7);
  });

  it('takes a cell, a row, a table', () => {
    const texts = grown('> ```measurement\n> | MSR | n |\n> |--|--|\n> | 4 m‸m | 3 |\n> ```\n');
    expect(texts.slice(0, 3)).toEqual(['mm', '4 mm', '| 4 mm | 3 |']);
  });

  it('takes a comment, and nothing outside of blocks', () => {
    expect(grown('```measurement\nm: 3 g # ca‸refully\n```\n')[0]).toBe('# carefully');
    expect(grown('Some ‸words\n')).toEqual(['']);
    expect(grown('```measurement ‸x\n```\n').at(-1)).toBe('```measurement x\n```');
  });

  it('is asked for at several places over the wire', async () => {
    const client = await lspClient();
    client.open('untitled:note', RIGHT_NOTE);
    const positions = ['2.45 cm +', '# The', '24 MSD'].map(piece => placeOf(RIGHT_NOTE, piece).start);
    const found = await client.request<SelectionRange[]>('textDocument/selectionRange', {
      textDocument: { uri: 'untitled:note' },
      positions,
    });
    expect(found).toHaveLength(3);
    expect(found[0]?.range).toEqual({
      start: positions[0],
      end: { ...positions[0]!, character: positions[0]!.character + 4 },
    });
    expect(found[1]?.parent).toBeUndefined();
  });
});
