import { beforeAll, describe, expect, it } from 'vitest';
import type { ClientCapabilities, TextEdit } from 'vscode-languageserver';
import { buildIfStale } from '../support/build-if-stale.ts';
import { editedText, placeOf } from '../support/edited-text.ts';
import { type LspClient, lspClient, MODERN } from '../support/lsp-client.ts';
import { PLAIN_NOTE, RIGHT_NOTE } from '../support/workshop-notes.ts';

beforeAll(buildIfStale);

const NOTE = 'untitled:nut.md';

const UNTIDY = `*  a list, by hand

> \`\`\`measurement nut
> main scale :1 MSD = 1 mm
> | MSR|n|
> | 12 mm | 7 |
> \`\`\`

\`\`\`measurement bolt
main scale :1 MSD = 1 mm
LC=1*1 mm
\`\`\`
`;

const TIDY = `*  a list, by hand

> \`\`\`measurement nut
> main scale: 1 MSD = 1 mm
> | MSR   | n |
> | 12 mm | 7 |
> \`\`\`

\`\`\`measurement bolt
main scale: 1 MSD = 1 mm
LC = 1 × 1 mm
\`\`\`
`;

const REGISTERING: ClientCapabilities = {
  ...MODERN,
  workspace: {
    ...MODERN.workspace,
    configuration: true,
    didChangeConfiguration: { dynamicRegistration: true },
  },
  textDocument: { ...MODERN.textDocument, formatting: { dynamicRegistration: true } },
};

/** An editor whose user switches formatting on and off. */
async function editor(isOn: boolean): Promise<{
  readonly client: LspClient;
  readonly registered: ReadonlySet<string>;
  /** Settles as soon as the server formats, or does no more. */
  whenFormatting(isOn: boolean): Promise<void>;
  switch(isOn: boolean): void;
}> {
  let format = isOn;
  const registered = new Set<string>();
  const watching = new Set<() => void>();
  const look = (): null => {
    for (const each of watching) each();
    return null;
  };
  const client = await lspClient(REGISTERING, {
    answers: {
      'workspace/configuration': ({ items }: { readonly items: readonly { readonly section: string }[] }) =>
        items.map(({ section }) =>
          section === 'leastwise.format.enable' ? format : { format: { enable: format } },
        ),
      'client/registerCapability': ({
        registrations,
      }: {
        readonly registrations: readonly { readonly method: string }[];
      }) => {
        for (const { method } of registrations) registered.add(method);
        return look();
      },
      'client/unregisterCapability': ({
        unregisterations,
      }: {
        readonly unregisterations: readonly { readonly method: string }[];
      }) => {
        for (const { method } of unregisterations) registered.delete(method);
        return look();
      },
    },
  });
  return {
    client,
    registered,
    switch(isOn) {
      format = isOn;
      client.notify('workspace/didChangeConfiguration', { settings: null });
    },
    whenFormatting: isOn =>
      new Promise(settle => {
        const look = (): void => {
          const methods = ['textDocument/formatting', 'textDocument/rangeFormatting'];
          if (methods.every(method => registered.has(method) === isOn)) settle();
        };
        watching.add(look);
        look();
      }),
  };
}

describe('tidying blocks', () => {
  it('is on offer where the cursor stands, and only in an untidy block', async () => {
    const client = await lspClient();
    client.open(NOTE, UNTIDY);
    const titles = async (words: string): Promise<readonly string[]> =>
      (await client.codeActions(NOTE, placeOf(UNTIDY, words))).map(({ title }) => title);
    expect(await titles('LC=1*1 mm')).toContain('Tidy this block');
    expect(await titles('a list, by hand')).not.toContain('Tidy this block');
    const offered = await client.codeActions(NOTE, placeOf(UNTIDY, '| 12 mm'));
    const action = await client.resolve(offered.find(({ title }) => title === 'Tidy this block')!);
    const [change] = action.edit!.documentChanges as { readonly edits: TextEdit[] }[];
    const made = editedText(UNTIDY, change!.edits);
    expect(made).toBe(
      TIDY.replace('main scale: 1 MSD = 1 mm\nLC = 1 × 1', 'main scale :1 MSD = 1 mm\nLC=1*1'),
    );
    client.change(NOTE, 2, [{ text: TIDY }]);
    expect(
      (await client.codeActions(NOTE, placeOf(TIDY, '| 12 mm'))).map(({ title }) => title),
    ).not.toContain('Tidy this block');
  });

  it('is never announced for all of Markdown, unless somebody switches it on', async () => {
    const plain = await lspClient();
    expect(plain.initialized.capabilities).not.toHaveProperty('documentFormattingProvider');
    expect(plain.initialized.capabilities).not.toHaveProperty('documentRangeFormattingProvider');
    const off = await editor(false);
    off.client.open(NOTE, UNTIDY);
    await off.client.pulled(NOTE);
    expect([...off.registered].filter(method => /formatting/i.test(method))).toEqual([]);
    off.switch(true);
    await off.whenFormatting(true);
    off.switch(false);
    await off.whenFormatting(false);
    expect(off.client.log).toEqual([]);
  });

  it('leaves the rest of the note as it is', async () => {
    const { client, whenFormatting } = await editor(true);
    client.open(NOTE, UNTIDY);
    await whenFormatting(true);
    const options = { tabSize: 4, insertSpaces: true };
    const textDocument = { uri: NOTE };
    const all = await client.request<TextEdit[]>('textDocument/formatting', { textDocument, options });
    expect(editedText(UNTIDY, all)).toBe(TIDY);
    const range = placeOf(UNTIDY, 'LC=1*1 mm');
    const some = await client.request<TextEdit[]>('textDocument/rangeFormatting', {
      textDocument,
      range,
      options,
    });
    expect(editedText(UNTIDY, some)).toBe(
      UNTIDY.slice(0, UNTIDY.indexOf('```measurement bolt')) +
        TIDY.slice(TIDY.indexOf('```measurement bolt')),
    );
    for (const text of [RIGHT_NOTE, PLAIN_NOTE, '']) {
      client.open('untitled:other', text);
      const other = { textDocument: { uri: 'untitled:other' }, options };
      expect(await client.request('textDocument/formatting', other)).toEqual([]);
      client.close('untitled:other');
    }
  });

  it('makes a block in a note that has none', async () => {
    const client = await lspClient();
    const note = '# Nut\n\nMSR = 1.2 cm\nVC = 6\nLC = 0.01 cm\n';
    client.open(NOTE, note);
    const range = { start: placeOf(note, 'MSR').start, end: placeOf(note, '0.01 cm').end };
    const [offered] = await client.codeActions(NOTE, range, { only: ['refactor'] });
    expect(offered?.title).toBe('Make a block of the selected lines');
    const { edit } = await client.resolve(offered!);
    const [change] = edit!.documentChanges as { readonly edits: TextEdit[] }[];
    expect(editedText(note, change!.edits)).toBe(
      '# Nut\n\n```measurement nut\nMSR = 1.2 cm\nVC = 6\nLC: 0.01 cm\n```\n',
    );
    expect(await client.codeActions(NOTE, { start: range.start, end: range.start })).toEqual([]);
  });
});
