import {
  type CompletionItem,
  CompletionItemKind,
  type CompletionList,
  type CompletionParams,
  CompletionTriggerKind,
  InsertTextFormat,
  InsertTextMode,
} from 'vscode-languageserver';
import { type Offer, withoutPlaces } from '../completion/offer.ts';
import { offersAt } from '../completion/offers-at.ts';
import { offsetFrom, rangeFrom } from '../convert.ts';
import type { Feature, Server } from '../feature.ts';
import { type FeatureSettings, featureSettings, USUAL_SETTINGS } from '../feature-settings.ts';
import type { OpenNote } from '../open-notes.ts';

/** Offers what may be typed in a block. Suggestions while typing are off in Markdown, so signs ask for them. */
export const completion: Feature = {
  announced: () => ({
    completionProvider: { triggerCharacters: [':', '=', ' ', '|', '\n', '`', '~'], resolveProvider: true },
  }),
  listen(server) {
    const manner = mannerOf(server);
    server.connection.onCompletion(
      server.answering<CompletionParams, CompletionList | null>(
        'offering what may be typed',
        null,
        ({ textDocument, position, context }) => {
          const open = server.note(textDocument.uri);
          if (open === null) return null;
          const isTyped = context?.triggerKind === CompletionTriggerKind.TriggerCharacter;
          const trigger = isTyped ? (context.triggerCharacter ?? null) : null;
          const offset = offsetFrom(open.document, position);
          return completionAt(
            open,
            offset,
            { ...manner, trigger },
            featureSettings(server, textDocument.uri),
          );
        },
      ),
    );
  },
};

/** What the editor understands, and what was typed to ask. */
export interface CompletionManner {
  readonly hasSnippets: boolean;
  readonly hasInsertMode: boolean;
  readonly trigger: string | null;
}

function mannerOf({ client }: Server): Omit<CompletionManner, 'trigger'> {
  const item = client.textDocument?.completion?.completionItem;
  return {
    hasSnippets: item?.snippetSupport === true,
    hasInsertMode: item?.insertTextModeSupport?.valueSet.includes(InsertTextMode.asIs) === true,
  };
}

/** The offers at a place of a note as the protocol has them; null where there are none. */
export function completionAt(
  open: Pick<OpenNote, 'document' | 'text'>,
  offset: number,
  manner: CompletionManner,
  { settings }: FeatureSettings = USUAL_SETTINGS,
): CompletionList | null {
  const found = offersAt(open, offset, manner.trigger, settings);
  if (found === null) return null;
  const range = rangeFrom(open.document, { start: found.from, end: offset });
  const inOrder = found.offers.toSorted((a, b) => a.rank - b.rank);
  return {
    isIncomplete: false,
    items: inOrder.map((offer, at) => itemFrom(offer, at, range, manner)),
  };
}

function itemFrom(
  { label, kind, detail, insert, isSnippet, filter, about }: Offer,
  at: number,
  range: ReturnType<typeof rangeFrom>,
  { hasSnippets, hasInsertMode }: CompletionManner,
): CompletionItem {
  const asSnippet = isSnippet && hasSnippets;
  return {
    label,
    kind: KINDS[kind],
    // Ranks as text: the editor sorts by letters.
    sortText: String(at).padStart(4, '0'),
    textEdit: { range, newText: isSnippet && !hasSnippets ? withoutPlaces(insert) : insert },
    ...(detail === null ? {} : { detail }),
    ...(filter === null ? {} : { filterText: filter }),
    ...(asSnippet ? { insertTextFormat: InsertTextFormat.Snippet } : {}),
    // New lines already begin as those of the list or quote around the block.
    ...(hasInsertMode && insert.includes('\n') ? { insertTextMode: InsertTextMode.asIs } : {}),
    ...(about === null ? {} : { data: about }),
  };
}

const KINDS: Readonly<Record<Offer['kind'], CompletionItemKind>> = {
  record: CompletionItemKind.Keyword,
  claim: CompletionItemKind.Property,
  name: CompletionItemKind.Variable,
  value: CompletionItemKind.Value,
  unit: CompletionItemKind.Unit,
  block: CompletionItemKind.Module,
  word: CompletionItemKind.EnumMember,
  snippet: CompletionItemKind.Snippet,
};
