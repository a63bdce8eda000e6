import { describe, expect, it } from 'vitest';
import type { TextDocumentEdit } from 'vscode-languageserver';
import { actionsAt } from '../../server/src/actions/all.ts';
import { withEdits } from '../../server/src/actions/settled-edits.ts';
import { checkedNote } from '../../server/src/checks/check.ts';
import { examineNote } from '../../server/src/checks/examine.ts';
import { DEFAULT_SETTINGS } from '../../server/src/checks/settings.ts';
import { lspClient, MODERN } from '../support/lsp-client.ts';
import { RIGHT_NOTE } from '../support/workshop-notes.ts';

function figures(text: string, student = false, noteName: string | null = 'q 7') {
  const note = examineNote(text, { ...DEFAULT_SETTINGS, student })!;
  const start = text.indexOf('coinciding division');
  const span = { start, end: start };
  return actionsAt({ text, note, checked: checkedNote(note), span, noteName }).filter(({ title }) =>
    title.startsWith('Insert the figure'),
  );
}

describe('inserting a figure', () => {
  it('writes a file beside the note and its image line, which is renewed and not doubled', () => {
    const [worked, question] = figures(RIGHT_NOTE);
    expect(worked?.newFile?.()?.name).toBe('q-7-axle-sleeve.svg');
    expect(worked?.newFile?.()?.content).toContain('2.484 cm');
    const text = withEdits(RIGHT_NOTE, worked!.edits());
    expect(text).toMatch(
      /<!-- figure: axle-sleeve \w{6} -->\n\n!\[.*\]\(q-7-axle-sleeve\.svg\)\n\n<!-- end figure -->/,
    );
    expect(figures(text)[0]?.edits()).toEqual([]);
    const changed = text.replace('coinciding division: 17', 'coinciding division: 18');
    const renewed = withEdits(changed, figures(changed)[0]!.edits());
    expect(renewed.match(/<!-- figure:/g)).toHaveLength(1);
    expect(renewed).toContain('2.486 cm');
    // The question stands beside it, and says nothing.
    const both = withEdits(text, question!.edits());
    expect(both.match(/<!-- figure:/g)).toHaveLength(2);
    expect(question?.newFile?.()?.name).toBe('q-7-axle-sleeve-question.svg');
    expect(question?.newFile?.()?.content).not.toMatch(/2\.484|in line/);
  });

  it('says of scales in letters why there is none, where an editor shows that', async () => {
    const text =
      '```measurement scale\nw: any length\nmain scale: 1 MSD = w\nvernier scale: 10 VSD = 9 MSD\nMSR: 3 MSD\ncoinciding division: 4\n```\n';
    const [only, ...more] = figures(text);
    expect(more).toEqual([]);
    expect(only?.unable).toBe(
      'There is no figure of this block, because its scales are in letters, and a drawing needs numbers',
    );
    expect(only?.edits()).toEqual([]);
    const uri = 'file:///bench/letters.md';
    for (const disabledSupport of [true, false]) {
      const codeAction = { ...MODERN.textDocument?.codeAction, disabledSupport };
      const client = await lspClient({
        ...MODERN,
        textDocument: { ...MODERN.textDocument, codeAction },
        workspace: { workspaceEdit: { documentChanges: true, resourceOperations: ['create'] } },
      });
      client.open(uri, text);
      const start = { line: 5, character: 0 };
      const offered = await client.codeActions(uri, { start, end: start });
      const shown = offered.filter(({ title }) => title.startsWith('Insert the figure'));
      expect(shown.map(({ disabled }) => disabled?.reason)).toEqual(disabledSupport ? [only?.unable] : []);
    }
  });

  it('is not on offer where no file can be written, and to students only as a question', () => {
    expect(figures(RIGHT_NOTE, false, null)).toEqual([]);
    expect(figures(RIGHT_NOTE, true).map(({ title }) => title)).toEqual([
      'Insert the figure below the block, as a question',
    ]);
  });

  it('comes to an editor that makes files as one change', async () => {
    const uri = 'file:///bench/q%207.md';
    const client = await lspClient({
      ...MODERN,
      workspace: { workspaceEdit: { documentChanges: true, resourceOperations: ['create'] } },
    });
    client.open(uri, RIGHT_NOTE);
    const line = RIGHT_NOTE.split('\n').findIndex(each => each.startsWith('coinciding'));
    const at = { line, character: 2 };
    const offered = await client.codeActions(uri, { start: at, end: at });
    const action = offered.find(({ title }) => title.endsWith('as a question'));
    const { edit } = await client.resolve(action!);
    const [made, filled, changed] = edit?.documentChanges ?? [];
    expect(made).toEqual({
      kind: 'create',
      uri: 'file:///bench/q-7-axle-sleeve-question.svg',
      options: { overwrite: true },
    });
    expect((filled as TextDocumentEdit).edits).toMatchObject([{ newText: expect.stringMatching(/^<svg /) }]);
    expect((changed as TextDocumentEdit).textDocument.uri).toBe(uri);
  });
});
