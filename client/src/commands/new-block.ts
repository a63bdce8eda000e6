import {
  l10n,
  type Position,
  SnippetString,
  type TextDocument,
  type TextEditor,
  window,
  workspace,
} from 'vscode';
import { INSTRUMENTS } from '../../../server/src/language/instruments.ts';
import { BLOCK_SNIPPETS, snippetLines } from '../../../server/src/lsp/completion/block-snippets.ts';

/** Asks for an instrument and begins a block about it at the cursor, with the lines that it needs. */
export async function newBlock(): Promise<void> {
  const chosen = await window.showQuickPick(
    BLOCK_SNIPPETS.map(snippet => ({
      label: snippet.instrument,
      detail: INSTRUMENTS.find(({ name }) => name === snippet.instrument)?.meaning ?? '',
      snippet,
    })),
    { title: l10n.t('New block'), placeHolder: l10n.t('Choose the instrument'), matchOnDetail: true },
  );
  if (chosen === undefined) return;
  const editor = noteInFront() ?? (await newNote());
  const block = [`\`\`\`measurement \${1:name}`, ...snippetLines(chosen.snippet), '```', '$0'];
  const { at, lines } = placed(editor.document, editor.selection.active, block);
  await editor.insertSnippet(new SnippetString(lines.join('\n')), at, {
    keepWhitespace: true,
    undoStopBefore: true,
    undoStopAfter: true,
  });
}

function noteInFront(): TextEditor | undefined {
  const editor = window.activeTextEditor;
  return editor?.document.languageId === 'markdown' ? editor : undefined;
}

async function newNote(): Promise<TextEditor> {
  return await window.showTextDocument(await workspace.openTextDocument({ language: 'markdown' }));
}

/** Where a block goes: at the cursor in an empty line, else below; never into another fence, and clear of the text above. */
function placed(
  document: TextDocument,
  cursor: Position,
  block: readonly string[],
): { readonly at: Position; readonly lines: readonly string[] } {
  const line = document.lineAt(fenceEnd(document, cursor.line) ?? cursor.line);
  const [prefix = ''] = /^[\s>]*/.exec(line.text) ?? [];
  const isEmpty = prefix === line.text && fenceEnd(document, cursor.line) === null;
  const isClear = line.lineNumber === 0 || !/[^\s>]/.test(document.lineAt(line.lineNumber - 1).text);
  const within = block.map((each, at) =>
    at === 0 && isEmpty && isClear ? each : `${prefix}${each}`.trimEnd(),
  );
  const before = isEmpty ? (isClear ? [] : ['']) : ['', prefix.trimEnd()];
  return { at: line.range.end, lines: [...before, ...within] };
}

/** The last line of the fence that a line stands in; null where it stands in none. */
function fenceEnd(document: TextDocument, line: number): number | null {
  let open: string | null = null;
  for (let at = 0; at < document.lineCount; at += 1) {
    const [, mark = null] =
      /^[\s>]*(?:(?:[-*+]|\d{1,9}[.)])\s+)*(`{3,}|~{3,})/.exec(document.lineAt(at).text) ?? [];
    if (mark !== null && open === null) {
      if (at > line) return null;
      open = mark;
    } else if (mark !== null && open !== null && mark.startsWith(open)) {
      open = null;
      if (line <= at) return at;
    }
  }
  return open === null ? null : document.lineCount - 1;
}
