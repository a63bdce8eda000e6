import { describe, expect, it } from 'vitest';
import type { DocumentDiagnosticReport } from 'vscode-languageserver';
import { lspClient, MODERN } from '../support/lsp-client.ts';

const NOTE = 'untitled:axle.md';
const TEXT = `\`\`\`measurement axle
main scale: 1 cm = 10 MSD
vernier scale: 10 VSD = 9 MSD
main scale reading: 1.2 cm
coinciding division: 7
observed reading = 1.27 cm
\`\`\`
`;
const LAST = { line: 5, character: 26 };

/** An editor that asks again when it is told to; `asked` ends with the next such call. */
async function client() {
  let ask = () => {};
  const editor = await lspClient(
    { ...MODERN, workspace: { ...MODERN.workspace, diagnostics: { refreshSupport: true } } },
    {
      answers: {
        'workspace/diagnostic/refresh': () => {
          ask();
          return null;
        },
      },
    },
  );
  const asked = () => new Promise<void>(settle => (ask = settle));
  return { ...editor, asked };
}

function rules(report: DocumentDiagnosticReport): readonly unknown[] {
  if (report.kind !== 'full') throw new Error('not a full report');
  return report.items.map(({ code }) => code);
}

describe('the line that is being typed', () => {
  it('is no error before the writer pauses', async () => {
    const editor = await client();
    editor.open(NOTE, TEXT);
    expect(rules(await editor.pulled(NOTE))).toEqual([]);
    const asked = editor.asked();
    editor.change(NOTE, 2, [{ range: { start: LAST, end: LAST }, text: '\ncorrected' }]);
    // A new line is a change of several lines; the letters that follow it are not.
    const end = { line: 6, character: 9 };
    editor.change(NOTE, 3, [{ range: { start: end, end }, text: ' rea' }]);
    await editor.pulled(NOTE);
    editor.change(NOTE, 4, [
      { range: { start: { line: 6, character: 13 }, end: { line: 6, character: 13 } }, text: 'd' },
    ]);
    expect(rules(await editor.pulled(NOTE))).toEqual([]);
    await asked;
    expect(rules(await editor.pulled(NOTE))).toEqual(['unreadable-line']);
  });

  it('leaves the findings of other lines where they are', async () => {
    const editor = await client();
    editor.open(NOTE, TEXT.replace('1.27', '1.28'));
    expect(rules(await editor.pulled(NOTE))).toEqual(['wrong-value']);
    const end = { line: 4, character: 22 };
    editor.change(NOTE, 2, [{ range: { start: end, end }, text: ' # seen twice' }]);
    expect(rules(await editor.pulled(NOTE))).toEqual(['wrong-value']);
  });
});
