import { describe, expect, it } from 'vitest';
import { lspClient } from '../support/lsp-client.ts';

const NOTE = `\`\`\`measurement dish
D: 2.4 cm
radius r = D / 2 = 1.2 cm
\`\`\`
`;

describe('names', () => {
  it('are found, marked and renamed over the wire', async () => {
    const client = await lspClient();
    client.open('untitled:dish', NOTE);
    const asked = { textDocument: { uri: 'untitled:dish' }, position: { line: 2, character: 11 } };
    const place = (line: number, character: number) => ({ start: { line, character } });
    expect(await client.request('textDocument/definition', asked)).toMatchObject({ range: place(1, 0) });
    const listed = { ...asked, context: { includeDeclaration: false } };
    expect(await client.request('textDocument/references', listed)).toMatchObject([{ range: place(2, 11) }]);
    expect(await client.request('textDocument/documentHighlight', asked)).toHaveLength(2);
    expect(await client.request('textDocument/prepareRename', asked)).toMatchObject({ placeholder: 'D' });
    expect(await client.request('textDocument/rename', { ...asked, newName: 'w' })).toMatchObject({
      documentChanges: [{ textDocument: { version: 1 }, edits: [{ newText: 'w' }, { newText: 'w' }] }],
    });
    await expect(client.request('textDocument/rename', { ...asked, newName: 'LC' })).rejects.toMatchObject({
      message: 'LC already stands for the least count',
    });
  });

  it('are handed over for renaming as they are typed', async () => {
    const client = await lspClient();
    client.open('untitled:bore', '```measurement\nBore of hub: 2.0 cm\nθ: 60°\n```\n');
    const prepared = (line: number) =>
      client.request('textDocument/prepareRename', {
        textDocument: { uri: 'untitled:bore' },
        position: { line, character: 0 },
      });
    expect(await prepared(1)).toMatchObject({ placeholder: 'Bore of hub' });
    expect(await prepared(2)).toMatchObject({ placeholder: 'θ' });
  });
});
