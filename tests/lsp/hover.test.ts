import { describe, expect, it } from 'vitest';
import type { Hover, MarkupContent } from 'vscode-languageserver';
import { placeOf } from '../support/edited-text.ts';
import { lspClient } from '../support/lsp-client.ts';
import { RIGHT_NOTE } from '../support/workshop-notes.ts';

const NOTE = 'untitled:axle';
const textOf = (hover: Hover | null): string => (hover?.contents as MarkupContent | undefined)?.value ?? '';

describe('what is told at the pointer', () => {
  it('is the working of the claim there, as plain text in a code block', async () => {
    const client = await lspClient();
    client.open(NOTE, RIGHT_NOTE);
    const claim = 'observed reading = 2.45 cm + 17 × 0.002 cm = 2.484 cm';
    const hover = await client.hover(NOTE, placeOf(RIGHT_NOTE, claim).start);
    expect(hover?.contents).toMatchObject({ kind: 'markdown' });
    expect(textOf(hover)).toMatch(/^```text\n[^$`]+\n```$/);
    // The reading of the workshop's own note: 2.45 cm and 17 times a fiftieth of a millimetre.
    expect(textOf(hover)).toContain('2.484 cm');
    expect(hover?.range).toEqual(placeOf(RIGHT_NOTE, claim));
  });

  it('is plain for an editor that shows nothing else', async () => {
    const client = await lspClient({ textDocument: { hover: { contentFormat: ['plaintext'] } } });
    client.open(NOTE, RIGHT_NOTE);
    const hover = await client.hover(NOTE, placeOf(RIGHT_NOTE, 'least count =').start);
    expect(hover?.contents).toMatchObject({ kind: 'plaintext' });
    expect(textOf(hover)).not.toContain('`');
    expect(textOf(hover)).toContain('0.02 mm');
  });

  it('is told of a claim in the prose as well', async () => {
    const client = await lspClient();
    const prose = `${RIGHT_NOTE}\nSo \`corrected reading of axle-sleeve = 2.478 cm\`.\n`;
    client.open(NOTE, prose);
    const there = placeOf(prose, 'corrected reading of axle-sleeve').start;
    expect(textOf(await client.hover(NOTE, there))).toContain('2.478 cm');
  });

  it('is nothing beside the claims', async () => {
    const client = await lspClient();
    client.open(NOTE, RIGHT_NOTE);
    for (const piece of ['# The sleeve', 'instrument:', '```measurement'])
      expect(await client.hover(NOTE, placeOf(RIGHT_NOTE, piece).start)).toBeNull();
  });
});
