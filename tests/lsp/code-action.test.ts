import { describe, expect, it } from 'vitest';
import type { CodeAction, Diagnostic, TextDocumentEdit, TextEdit } from 'vscode-languageserver';
import { checkNote } from '../../server/src/checks/check.ts';
import { editedText, placeOf } from '../support/edited-text.ts';
import { lspClient, MODERN } from '../support/lsp-client.ts';
import { RIGHT_NOTE, WRONG_NOTE } from '../support/workshop-notes.ts';

const NOTE = 'file:///bench/axle.md';
const TWICE_WRONG = WRONG_NOTE.replace('correction = -0.06', 'correction = -0.07');

function editsOf(action: CodeAction | undefined): readonly TextEdit[] {
  const [change] = (action?.edit?.documentChanges ?? []) as TextDocumentEdit[];
  return (change?.edits ?? []) as TextEdit[];
}

async function diagnosticsOf(client: Awaited<ReturnType<typeof lspClient>>): Promise<Diagnostic[]> {
  const report = await client.pulled(NOTE);
  return report.kind === 'full' ? report.items : [];
}

describe('quick fixes', () => {
  it('bring their edit when they are chosen, for the version they were offered for', async () => {
    const client = await lspClient();
    client.open(NOTE, WRONG_NOTE);
    const diagnostics = await diagnosticsOf(client);
    const range = placeOf(WRONG_NOTE, '2.494 cm');
    const offered = await client.codeActions(NOTE, range, { diagnostics, only: ['quickfix'] });
    const [fix] = offered;
    expect(fix).toMatchObject({ kind: 'quickfix', isPreferred: true, diagnostics });
    expect(offered.filter(each => each.isPreferred)).toHaveLength(1);
    for (const each of offered) expect(each).not.toHaveProperty('edit');
    const chosen = await client.resolve(fix!);
    expect(chosen.edit).toMatchObject({ documentChanges: [{ textDocument: { uri: NOTE, version: 1 } }] });
    const mended = editedText(WRONG_NOTE, editsOf(chosen));
    expect(mended).toBe(RIGHT_NOTE);
    client.change(NOTE, 2, [{ text: mended }]);
    expect(await diagnosticsOf(client)).toEqual([]);
  });

  it('are refused when the note has changed since they were offered', async () => {
    const client = await lspClient();
    client.open(NOTE, WRONG_NOTE);
    const [fix] = await client.codeActions(NOTE, placeOf(WRONG_NOTE, '2.494 cm'));
    const top = { line: 0, character: 0 };
    client.change(NOTE, 2, [{ range: { start: top, end: top }, text: '# ' }]);
    // ContentModified, so that the editor keeps still about it.
    await expect(client.resolve(fix!)).rejects.toMatchObject({ code: -32801 });
    client.close(NOTE);
    await expect(client.resolve(fix!)).rejects.toMatchObject({ code: -32801 });
  });

  it('make rows of all readings that stand together, whichever of them is chosen', async () => {
    const lines = ['reading 1: 42 mm, VC 3', 'reading 2: 42 mm, VC 4', 'reading 3: 42 mm, VC 5'];
    const block = (readings: readonly string[]) =>
      [
        '> ```measurement',
        'main scale: 1 MSD = 1 mm',
        'vernier scale: 10 VSD = 9 MSD',
        ...readings,
        '```',
        '',
      ].join('\r\n> ');
    const client = await lspClient();
    client.open(NOTE, block(lines));
    for (const line of lines) {
      const [fix] = await client.codeActions(NOTE, placeOf(block(lines), line), { only: ['quickfix'] });
      expect(editedText(block(lines), editsOf(await client.resolve(fix!)))).toBe(
        block(['| MSR | VC |', '| 42 mm | 3 |', '| 42 mm | 4 |', '| 42 mm | 5 |']),
      );
    }
  });

  it('come one for each finding that the selection meets', async () => {
    const client = await lspClient();
    client.open(NOTE, TWICE_WRONG);
    const diagnostics = await diagnosticsOf(client);
    expect(diagnostics).toHaveLength(2);
    const whole = { start: { line: 0, character: 0 }, end: { line: 100, character: 0 } };
    const fixes = await client.codeActions(NOTE, whole, { diagnostics, only: ['quickfix'] });
    const mended = fixes.filter(({ isPreferred }) => isPreferred).flatMap(fix => fix.diagnostics ?? []);
    expect(mended).toEqual(diagnostics);
    const one = editedText(TWICE_WRONG, editsOf(await client.resolve(fixes[0]!)));
    expect(checkNote(one).findings).toHaveLength(1);
  });

  it('are of the kinds that are asked for', async () => {
    const client = await lspClient();
    client.open(NOTE, WRONG_NOTE);
    const range = placeOf(WRONG_NOTE, '2.494 cm');
    for (const only of ['quickfix', 'refactor', 'source', 'source.fixAll'])
      for (const { kind } of await client.codeActions(NOTE, range, { only: [only] }))
        expect(`${kind}.`.startsWith(`${only}.`), `${kind} for ${only}`).toBe(true);
    expect(await client.codeActions(NOTE, range, { only: ['source.organizeImports'] })).toEqual([]);
    expect(await client.codeActions(NOTE, range, { only: [] })).toEqual([]);
  });

  it('come with their edits for an editor that cannot ask later, without versions where it knows none', async () => {
    const client = await lspClient({ textDocument: { diagnostic: {}, codeAction: {} } });
    expect(client.initialized.capabilities.codeActionProvider).toMatchObject({ resolveProvider: false });
    client.open(NOTE, WRONG_NOTE);
    const [fix] = await client.codeActions(NOTE, placeOf(WRONG_NOTE, '2.494 cm'));
    expect(editedText(WRONG_NOTE, fix?.edit?.changes?.[NOTE] ?? [])).toBe(RIGHT_NOTE);
  });

  it('keep the line ends of the note', async () => {
    const client = await lspClient();
    const windows = WRONG_NOTE.replaceAll('\n', '\r\n');
    client.open(NOTE, windows);
    const [fix] = await client.codeActions(NOTE, placeOf(windows, '2.494 cm'));
    expect(editedText(windows, editsOf(await client.resolve(fix!)))).toBe(
      RIGHT_NOTE.replaceAll('\n', '\r\n'),
    );
  });
});

describe('fix all', () => {
  const only = ['source.fixAll.leastwise'];
  const top = { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } };

  it('mends what is sure, from anywhere and without being told the findings', async () => {
    const client = await lspClient(MODERN);
    client.open(NOTE, TWICE_WRONG);
    for (const asked of [only, ['source.fixAll'], ['source']]) {
      const offered = await client.codeActions(NOTE, top, { only: asked });
      expect(offered).toHaveLength(1);
      expect(editedText(TWICE_WRONG, editsOf(await client.resolve(offered[0]!)))).toBe(RIGHT_NOTE);
    }
  });

  it('is not offered where nothing is to be mended', async () => {
    const client = await lspClient();
    client.open(NOTE, RIGHT_NOTE);
    expect(await client.codeActions(NOTE, top, { only })).toEqual([]);
  });
});
