import { describe, expect, it } from 'vitest';
import { type LspClient, lspClient, MODERN, WAITING } from '../support/lsp-client.ts';
import { RIGHT_NOTE, WRONG_NOTE } from '../support/workshop-notes.ts';

const NOTE = 'untitled:note';
const FIRST_LINE = { start: { line: 0, character: 0 }, end: { line: 1, character: 0 } };

/** Every byte there is, as an editor reads it, with what looks like a block among it. */
const BINARY = new TextDecoder('utf-8')
  .decode(Uint8Array.from({ length: 400_000 }, (_, at) => (at * 7919) % 256))
  .replace(/\0/g, '\0```measurement\0');

const PROSE = 'The apprentice turns the part by a third and measures again, `with care` and *no hurry*.\n\n';

/** Notes that no person writes, each with a wrong block at its end where it can have one. */
const TROUBLED: Readonly<Record<string, string>> = {
  'a picture that is called a note': BINARY,
  'nothing but nothing': '\0'.repeat(2_000_000),
  'six megabytes of prose': PROSE.repeat(70_000) + WRONG_NOTE,
  'a line of five megabytes': `${'measurement '.repeat(420_000)}\n\n${WRONG_NOTE}`,
  'a block without an end': `\`\`\`measurement\n${'main scale reading: 2 mm\n'.repeat(20_000)}`,
  'half a million quotes': `${'> '.repeat(500_000)}\n\`\`\`measurement\nleast count = 1 mm`,
};

/** All that an editor asks by itself when a note is opened. */
async function askAll(client: LspClient, uri: string): Promise<readonly unknown[]> {
  const textDocument = { uri };
  const position = { line: 3, character: 3 };
  const range = { start: { line: 0, character: 0 }, end: { line: 60, character: 0 } };
  const asked: readonly (readonly [string, object])[] = [
    ['textDocument/diagnostic', {}],
    ['textDocument/documentSymbol', {}],
    ['textDocument/foldingRange', {}],
    ['textDocument/inlayHint', { range }],
    ['textDocument/semanticTokens/range', { range }],
    ['textDocument/documentHighlight', { position }],
    ['textDocument/hover', { position }],
    ['textDocument/codeAction', { range, context: { diagnostics: [] } }],
    ['textDocument/completion', { position }],
    ['textDocument/definition', { position }],
    ['textDocument/selectionRange', { positions: [position] }],
  ];
  return await Promise.all(
    asked.map(([method, params]) => client.request(method, { textDocument, ...params })),
  );
}

describe('a note that nobody wrote', () => {
  it.each(Object.entries(TROUBLED))('is answered, and holds up no other: %s', async (_, text) => {
    const client = await lspClient();
    client.open(NOTE, text);
    const told = await askAll(client, NOTE);
    expect(told).toHaveLength(11);
    client.change(NOTE, 2, [{ range: FIRST_LINE, text: 'x\n' }]);
    client.open('untitled:other', WRONG_NOTE);
    expect(await client.pulled('untitled:other')).toMatchObject({ items: [{ code: 'wrong-value' }] });
    const report = await client.pulled(NOTE);
    if (text.endsWith(WRONG_NOTE)) expect(report).toMatchObject({ items: [{ code: 'wrong-value' }] });
    expect(client.log).toEqual([]);
    expect(await client.end()).toBe(0);
  });
});

describe('a note that is closed while it is checked', () => {
  it('is answered all the same, and checked when it is opened again', async () => {
    const client = await lspClient();
    for (let round = 0; round < 20; round++) {
      client.open(NOTE, WRONG_NOTE);
      const asked = askAll(client, NOTE);
      client.close(NOTE);
      expect(await asked).toHaveLength(11);
    }
    expect(await client.pulled(NOTE)).toEqual({ kind: 'full', items: [] });
    client.open(NOTE, WRONG_NOTE);
    expect(await client.pulled(NOTE)).toMatchObject({ items: [{ code: 'wrong-value' }] });
    expect(client.log).toEqual([]);
  });

  it('is checked with its last text where it is opened again at once', async () => {
    const client = await lspClient(WAITING);
    for (let round = 0; round < 20; round++) {
      client.open(NOTE, RIGHT_NOTE);
      client.change(NOTE, 2, [{ text: WRONG_NOTE }]);
      client.close(NOTE);
    }
    client.open(NOTE, WRONG_NOTE);
    const found = await client.pushed(NOTE, ({ diagnostics }) => diagnostics.length > 0);
    expect(found).toMatchObject([{ code: 'wrong-value' }]);
    client.close(NOTE);
    expect(await client.pushed(NOTE, ({ diagnostics }) => diagnostics.length === 0)).toEqual([]);
  });

  it('does not come back where the settings for it arrive only then', async () => {
    let answer: (() => void) | null = null as (() => void) | null;
    const client = await lspClient(
      { ...WAITING, workspace: { ...MODERN.workspace, configuration: true } },
      {
        initializationOptions: { configFiles: true },
        answers: {
          'leastwise/config': () =>
            new Promise(settle => {
              answer = () => settle(null);
            }),
          'workspace/configuration': ({ items }: { readonly items: readonly unknown[] }) =>
            items.map(() => null),
        },
      },
    );
    const late = 'file:///bench/late/note.md';
    const other = 'file:///bench/other/note.md';
    const answered = async (): Promise<void> => {
      await expect.poll(() => answer, { timeout: 20_000 }).not.toBeNull();
      const send = answer!;
      answer = null;
      send();
    };
    client.open(late, WRONG_NOTE);
    await expect.poll(() => answer, { timeout: 20_000 }).not.toBeNull();
    client.close(late);
    await answered();
    client.open(other, WRONG_NOTE);
    await answered();
    expect(await client.pushed(other)).toMatchObject([{ code: 'wrong-value' }]);
    if (client.pushes(late) > 0) expect(await client.pushed(late)).toEqual([]);
    expect(await client.codeActions(late, FIRST_LINE)).toEqual([]);
  });
});
