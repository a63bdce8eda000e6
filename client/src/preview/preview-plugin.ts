import { DEFAULT_SETTINGS, type Settings } from '../../../server/src/checks/settings.ts';
import type { SetMath } from '../../../server/src/render/card-html.ts';
import { type NoteCards, noteCards } from './note-cards.ts';

/** As much of markdown-it as is used here. */
export interface Markdown {
  readonly core: { readonly ruler: { push(name: string, rule: (state: CoreState) => void): void } };
  readonly renderer: {
    readonly rules: Record<string, RenderRule | undefined>;
    renderInline(tokens: readonly Token[], options: unknown, env: object): string;
  };
  readonly options: unknown;
  parseInline(text: string, env: object): readonly { readonly children: readonly Token[] | null }[];
}

interface CoreState {
  readonly src: string;
  readonly tokens: readonly Token[];
}

export interface Token {
  readonly type: string;
  readonly info: string;
  /** Its first line and the one after its last, counted from 0. */
  readonly map: readonly [number, number] | null;
  meta: Readonly<Record<string, unknown>> | null;
}

export type RenderRule = (
  tokens: readonly Token[],
  index: number,
  options: unknown,
  env: { readonly currentDocument?: unknown } | undefined,
  renderer: unknown,
) => string;

/** How a document of the preview is to be looked at; null as long as nobody knows. */
export type SettingsOf = (document: unknown) => Settings | null;

/** As long as nobody knows whether values may be told, none is. */
const NOT_KNOWN: Settings = { ...DEFAULT_SETTINGS, student: true };
/** So many notes are remembered. */
const MOST_NOTES = 8;

/**
 * Puts a card under each measurement block of the preview: its quantities, its findings and its figure, without a script.
 *
 * The whole note is needed for it, since blocks refer to each other: it is laid beside the tokens when they are made.
 */
export function previewPlugin(settingsOf: SettingsOf): <M extends Markdown>(markdown: M) => M {
  return markdown => {
    const { rules } = markdown.renderer;
    const notes = new Map<string, NoteCards>();
    markdown.core.ruler.push('leastwise', ({ src, tokens }) => {
      for (const token of tokens) if (isBlock(token)) token.meta = { ...token.meta, leastwise: src };
    });
    const before = rules.fence;
    rules.fence = (tokens, index, options, env, renderer) => {
      const block = before?.(tokens, index, options, env, renderer) ?? '';
      const token = tokens[index];
      const text = token?.meta?.leastwise;
      if (token === undefined || token.map === null || typeof text !== 'string') return block;
      const settings = settingsOf(env?.currentDocument) ?? NOT_KNOWN;
      const cards = cardsOf(notes, nameOf(env?.currentDocument, text), mathOf(markdown));
      return block + (cards.at(text, settings).get(token.map[0]) ?? '');
    };
    return markdown;
  };
}

function isBlock({ type, info }: Token): boolean {
  return type === 'fence' && /measurement/i.test(info);
}

/** A text that belongs to no document has nothing from before. */
function nameOf(document: unknown, text: string): string {
  return document === undefined || document === null ? `text ${text}` : `note ${String(document)}`;
}

/** The cards of a note, of those that were shown last. */
function cardsOf(notes: Map<string, NoteCards>, document: string, setMath: SetMath): NoteCards {
  const cards = notes.get(document) ?? noteCards(setMath);
  notes.delete(document);
  notes.set(document, cards);
  for (const oldest of notes.keys()) {
    if (notes.size <= MOST_NOTES) break;
    notes.delete(oldest);
  }
  return cards;
}

/** The preview's own math, where it has some: it is told by the name that its plugin gives to formulas in a line. */
function mathOf(markdown: Markdown): SetMath {
  if (markdown.renderer.rules.math_inline === undefined) return null;
  // Other extensions put their own before whatever is rendered as a whole, so only the formula is.
  return latex =>
    markdown
      .parseInline(`$${latex}$`, {})
      .map(({ children }) => markdown.renderer.renderInline(children ?? [], markdown.options, {}))
      .join('');
}
