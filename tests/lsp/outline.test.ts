import { describe, expect, it } from 'vitest';
import { documentSymbolsOf } from '../../server/src/lsp/features/document-symbol.ts';
import { foldingRangesOf } from '../../server/src/lsp/features/folding-range.ts';
import { lspClient, MODERN } from '../support/lsp-client.ts';
import { openNote } from '../support/open-note.ts';
import { RIGHT_NOTE } from '../support/workshop-notes.ts';

const WORKED = `${RIGHT_NOTE}
<!-- working: axle-sleeve 3f2a9c -->
As on the board.
<!-- end working -->

\`\`\`measurement
uses: axle-sleeve
| label | MSR | n |
|-------|-----|---|
| left  | 2.45 cm | 17 |
wall t: 1.2 mm
option A: 3 mm
option B: none of these
\`\`\`
`;

describe('the outline of a note', () => {
  it('is its blocks and what stands in them', () => {
    const [sleeve, second] = documentSymbolsOf(openNote(WORKED));
    expect(sleeve).toMatchObject({ name: 'axle-sleeve', detail: 'vernier calipers' });
    expect(sleeve?.children?.map(({ name, detail }) => [name, detail])).toEqual([
      ['least count', '0.02 mm'],
      ['zero error', '+0.06 mm'],
      ['zero correction', '-0.06 mm'],
      ['observed reading', '2.484 cm'],
      ['corrected reading', '2.478 cm'],
    ]);
    expect(second?.name).toBe('measurement');
    expect(second?.children?.map(({ name }) => name)).toEqual(['left', 't', 'option A', 'option B']);
  });

  it('has every entry within its block, as the protocol wants it', () => {
    for (const { range, selectionRange, children = [] } of documentSymbolsOf(openNote(WORKED))) {
      expect(selectionRange.start.line).toBe(range.start.line);
      for (const child of children) {
        expect(child.name).not.toBe('');
        expect(child.range.start.line).toBeGreaterThan(range.start.line);
        expect(child.range.end.line).toBeLessThan(range.end.line);
      }
    }
  });

  it('is a plain list for editors that know no other', async () => {
    const client = await lspClient();
    client.open('untitled:note', RIGHT_NOTE);
    const asked = { textDocument: { uri: 'untitled:note' } };
    expect(await client.request('textDocument/documentSymbol', asked)).toMatchObject([
      { name: 'axle-sleeve', location: { uri: 'untitled:note' } },
      { name: 'least count', containerName: 'axle-sleeve' },
      {},
      {},
      {},
      {},
    ]);
    const nested = { hierarchicalDocumentSymbolSupport: true };
    const modern = await lspClient({
      ...MODERN,
      textDocument: { ...MODERN.textDocument, documentSymbol: nested },
    });
    modern.open('untitled:note', RIGHT_NOTE);
    expect(await modern.request('textDocument/documentSymbol', asked)).toMatchObject([
      { name: 'axle-sleeve', children: [{}, {}, {}, {}, {}] },
    ]);
  });
});

describe('folding', () => {
  it('takes blocks, and workings below them', () => {
    expect(foldingRangesOf(openNote(WORKED))).toEqual([
      { startLine: 2, endLine: 16 },
      { startLine: 22, endLine: 30 },
      { startLine: 18, endLine: 20, kind: 'region' },
    ]);
    expect(foldingRangesOf(openNote('# No block\n'))).toEqual([]);
  });

  it('goes over the wire', async () => {
    const client = await lspClient();
    client.open('untitled:note', RIGHT_NOTE);
    const asked = { textDocument: { uri: 'untitled:note' } };
    expect(await client.request('textDocument/foldingRange', asked)).toEqual([{ startLine: 2, endLine: 16 }]);
  });
});
