import * as vscode from 'vscode';
import { AXLE, AXLE_OBSERVED } from './bench-notes.ts';
import type { EditorTest } from './editor-test.ts';
import { holds } from './equal.ts';
import { openNote } from './open-note.ts';
import { until } from './until.ts';

/** The editor's own Markdown preview, as the HTML that it shows. */
export const PREVIEW: readonly EditorTest[] = [
  {
    name: 'The preview shows a card with the values and the figure under the block',
    async run() {
      const { document } = await openNote(AXLE);
      const html = await until('the card', () => rendered(document), shows('>corrected reading</th>'));
      holds(/<svg [^>]*role="img"/.test(html), `no figure in\n${html.slice(0, 2000)}`);
      holds(
        /<th scope="row">corrected reading<\/th><td><span class="katex">.*1\.23/.test(html),
        'no value in the card',
      );
      holds(
        html.split('id="markdown-').length <= 2,
        'what another extension adds stands there again and again',
      );
      holds(!/<script/i.test(html), 'a script in the preview');
    },
  },
  {
    name: 'The preview of a student shows the records only',
    async run() {
      const { document } = await openNote(AXLE_OBSERVED);
      const settings = vscode.workspace.getConfiguration('leastwise');
      try {
        await settings.update('student', true, vscode.ConfigurationTarget.Workspace);
        const html = await until(
          'the card of a student',
          () => rendered(document),
          text => text.includes('leastwise-card') && !text.includes('1.23'),
        );
        holds(html.includes('<svg '), 'no figure for the student');
      } finally {
        await settings.update('student', undefined, vscode.ConfigurationTarget.Workspace);
      }
    },
  },
  {
    name: 'Hostile words of a note are harmless in the preview',
    async run() {
      const hostile = AXLE.replace(
        'vernier calipers',
        '"><script>alert(1)</script><img src=x onerror=alert(1)>',
      );
      const { document } = await openNote(hostile);
      const html = await until('the card', () => rendered(document), shows('leastwise-card'));
      // What stands between quotation marks is a value, whatever it looks like.
      const card = html.slice(html.indexOf('<div class="leastwise-card"')).replace(/"[^"]*"/g, '""');
      holds(!/<script|<img|<[^>]*\sonerror=/i.test(card), `not escaped in\n${card.slice(0, 2000)}`);
    },
  },
];

function rendered(document: vscode.TextDocument): Thenable<string> {
  return vscode.commands.executeCommand<string>('markdown.api.render', document);
}

function shows(words: string): (html: string) => boolean {
  return html => html.includes(words);
}
