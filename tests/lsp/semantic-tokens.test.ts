import { describe, expect, it } from 'vitest';
import type { SemanticTokens, SemanticTokensLegend } from 'vscode-languageserver';
import { semanticTokensOf } from '../../server/src/lsp/features/semantic-tokens.ts';
import { TOKEN_KINDS } from '../../server/src/lsp/token-kinds.ts';
import { lspClient } from '../support/lsp-client.ts';
import { openNote } from '../support/open-note.ts';
import { RIGHT_NOTE } from '../support/workshop-notes.ts';

/** Each token as `text kind`, in the note's order. */
function unpacked(text: string, { data }: SemanticTokens): readonly string[] {
  const lines = text.split(/\r?\n/);
  const found: string[] = [];
  let line = 0;
  let character = 0;
  for (let at = 0; at < data.length; at += 5) {
    const [lines_, characters, length, kind] = data.slice(at, at + 4) as [number, number, number, number];
    character = lines_ === 0 ? character + characters : characters;
    line += lines_;
    expect(length).toBeGreaterThan(0);
    found.push(`${lines[line]!.slice(character, character + length)} ${TOKEN_KINDS[kind]}`);
  }
  return found;
}

const kinds = (text: string): readonly string[] =>
  unpacked(text, semanticTokensOf(openNote(text), { start: 0, end: text.length }));

describe('what the words of a block are', () => {
  it('is told of terms, quantities of one’s own, numbers, units, signs and comments', () => {
    const note =
      '```measurement\nvolume v: 3 cm^3 # of the ball\ndensity rho = 7 g / v = ?\na = sqrt(4 / pi)\n```\n';
    expect(kinds(note)).toEqual([
      ...['volume variable', 'v variable', ': operator', '3 number', 'cm type', '^ operator', '3 number'],
      '# of the ball comment',
      ...['density variable', 'rho variable', '= operator', '7 number', 'g type', '/ operator', 'v variable'],
      ...['= operator', '? operator'],
      ...['a variable', '= operator', 'sqrt function', '( operator', '4 number', '/ operator'],
      ...['pi number', ') operator'],
    ]);
    expect(kinds('```measurement\nMSR: 2.45 cm\n```\n')).toEqual([
      'MSR keyword',
      ': operator',
      '2.45 number',
      'cm type',
    ]);
  });

  it('is told of blocks, rows and terms of other blocks', () => {
    const note = `${RIGHT_NOTE}
- \`\`\`measurement q
  uses: axle-sleeve
  | label | MSR |
  |-------|-----|
  | left  | 2 cm |
  d = corrected reading of axle-sleeve - MSR of left
  \`\`\`
`;
    const found = kinds(note).slice(-23);
    for (const token of [
      'axle-sleeve namespace',
      'label keyword',
      'MSR keyword',
      'left string',
      'd variable',
    ])
      expect(found).toContain(token);
    expect(found.slice(-9)).toEqual(
      [
        'd variable',
        '= operator',
        'corrected keyword',
        'reading keyword',
        'of keyword',
        'axle-sleeve namespace',
        '- operator',
        ...['MSR keyword', 'of keyword', 'left string'],
      ].slice(-9),
    );
  });

  it('is nothing outside of blocks', () => {
    expect(kinds('# MSR: 3 cm\n\n```js\nMSR: 3\n```\n')).toEqual([]);
  });

  it('is told of a part of a note as of the whole, over the wire, with the legend', async () => {
    const client = await lspClient();
    const { semanticTokensProvider } = client.initialized.capabilities;
    const legend = semanticTokensProvider?.legend as SemanticTokensLegend;
    expect(legend.tokenTypes).toEqual([...TOKEN_KINDS]);
    const note = RIGHT_NOTE.replaceAll('\n', '\r\n');
    client.open('untitled:note', note);
    const textDocument = { uri: 'untitled:note' };
    const full = await client.request<SemanticTokens>('textDocument/semanticTokens/full', { textDocument });
    expect(unpacked(note, full)).toEqual(kinds(RIGHT_NOTE));
    const range = { start: { line: 4, character: 0 }, end: { line: 5, character: 0 } };
    const part = await client.request<SemanticTokens>('textDocument/semanticTokens/range', {
      textDocument,
      range,
    });
    expect(unpacked(note, part)).toEqual(kinds(RIGHT_NOTE));
    const away = { start: { line: 0, character: 0 }, end: { line: 1, character: 0 } };
    expect(await client.request('textDocument/semanticTokens/range', { textDocument, range: away })).toEqual({
      data: [],
    });
  });
});
