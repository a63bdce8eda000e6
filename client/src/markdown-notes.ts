import type { TextDocumentFilter } from 'vscode-languageclient';

/**
 * The documents that are checked: Markdown on disk, not saved yet, or of a folder that is looked at without a
 * copy on disk. Not the old side of a comparison and not the cells of a notebook, which are Markdown too.
 */
export const MARKDOWN_NOTES: readonly TextDocumentFilter[] = [
  'file',
  'untitled',
  'vscode-vfs',
  'vscode-test-web',
].map(scheme => ({ language: 'markdown', scheme }));
