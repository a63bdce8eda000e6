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
