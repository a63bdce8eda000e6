import { createRequire } from 'node:module';
import { type Markdown, previewPlugin } from '../../client/src/preview/preview-plugin.ts';
import { DEFAULT_SETTINGS, type Settings } from '../../server/src/checks/settings.ts';

/** What the tests use of markdown-it, which the editor's preview is made of. */
export interface Renderer extends Markdown {
  render(text: string, env?: object): string;
}

type MarkdownIt = new (options: { readonly html: boolean }) => Renderer;
const MarkdownIt = createRequire(import.meta.url)('markdown-it') as MarkdownIt;

/** A preview of its own, as the editor makes one; `settings` may change while it is used. */
export function preview(settings: () => Settings | null = () => DEFAULT_SETTINGS): Renderer {
  return previewPlugin(settings)(new MarkdownIt({ html: true }));
}

/** A note in the state of a moment, as the editor's preview shows it. */
export function shown(markdown: Renderer, text: string): string {
  return markdown.render(text, { currentDocument: 'file:///bench.md' });
}

/** What stands in the preview's cards, one after the other. */
export function cardsIn(html: string): readonly string[] {
  return html.match(/<div class="leastwise-card"[\s\S]*?<\/div>\n/g) ?? [];
}
