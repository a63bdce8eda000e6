import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Range } from 'vscode-languageserver';
import { editedText, positionOf } from '../support/edited-text.ts';
import { type LspClient, lspClient } from '../support/lsp-client.ts';
import { drawSeed } from '../support/seed.ts';
import { RIGHT_NOTE, WARNING_NOTE, WRONG_NOTE } from '../support/workshop-notes.ts';

drawSeed('typing');

/** What is typed, pasted and deleted: whole lines of blocks, fences, line ends of each kind, letters of two units. */
const piece = fc.oneof(
  fc.constantFrom(
    '',
    '\n',
    '\r\n',
    '\r',
    '```',
    '```measurement x\n',
    '~~~\n',
    '> ',
    '- ',
    '<!--',
    '🚲',
    '9',
    'cm',
  ),
  fc.constantFrom(...`${WRONG_NOTE}${WARNING_NOTE}`.split(/(?<=\n)/)),
);
const opening = fc.constantFrom(
  '',
  '\r',
  WRONG_NOTE,
  RIGHT_NOTE.replaceAll('\n', '\r\n'),
  `> ${WARNING_NOTE}`,
);
/** Where an edit begins, as a part of the note, how long it is, what is put there, and whether it ends far beyond the note. */
const edit = fc.tuple(fc.nat(1000), fc.oneof(fc.constant(0), fc.nat(40)), piece, fc.boolean());
const rounds = fc.array(fc.array(edit, { minLength: 1, maxLength: 4 }), { minLength: 1, maxLength: 8 });

describe('a note that is being typed', () => {
  it('has the findings of a note with that text, whatever was typed in whichever order', async () => {
    const client = await lspClient();
    let note = 0;
    await fc.assert(
      fc.asyncProperty(opening, rounds, async (first, changes) => {
        note += 1;
        await expectFreshFindings(client, `untitled:typed-${note}`, first, changes);
      }),
      { numRuns: 150 },
    );
    expect(client.log).toEqual([]);
  });
});

async function expectFreshFindings(
  client: LspClient,
  uri: string,
  opened: string,
  changes: readonly (readonly (readonly [number, number, string, boolean])[])[],
): Promise<void> {
  let text = opened;
  client.open(uri, text);
  for (const [round, edits] of changes.entries()) {
    const sent = edits.map(([part, length, typed, isBeyond]) => {
      const start = Math.floor((text.length * part) / 1000);
      const range: Range = {
        start: positionOf(text, start),
        end: isBeyond && part > 800 ? { line: 1_000_000, character: 0 } : positionOf(text, start + length),
      };
      text = editedText(text, [{ range, newText: typed }]);
      return { range, text: typed };
    });
    client.change(uri, round + 2, sent);
  }
  const found = await client.pulled(uri);
  client.close(uri);
  client.open(uri, text);
  const expected = await client.pulled(uri);
  expect({ ...found, resultId: '' }).toEqual({ ...expected, resultId: '' });
  client.close(uri);
}
