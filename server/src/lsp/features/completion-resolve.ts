import { type CompletionItem, MarkupKind } from 'vscode-languageserver';
import { instrumentNamed } from '../../language/instruments.ts';
import { findTerm } from '../../language/terms.ts';
import { RULE_ENTRIES } from '../../reference/entries.ts';
import type { About } from '../completion/offer.ts';
import type { Feature } from '../feature.ts';
import { type Told, toldText } from '../told.ts';
import { toldOfInstrument, toldOfTerm } from '../told-of.ts';

/** Tells what an offer means, only when somebody looks at it. */
export const completionResolve: Feature = {
  announced: () => ({}),
  listen(server) {
    const formats = server.client.textDocument?.completion?.completionItem?.documentationFormat;
    const isMarkdown = formats?.includes(MarkupKind.Markdown) === true;
    server.connection.onCompletionResolve((item, token) =>
      server.answering<CompletionItem, CompletionItem>('explaining an offer', item, () =>
        explained(item, isMarkdown),
      )(item, token),
    );
  },
};

/** The same item with what its word means, its example included. */
function explained(item: CompletionItem, isMarkdown: boolean): CompletionItem {
  const about = aboutFrom(item.data);
  const told = about === null ? [] : toldAbout(about);
  if (told.length === 0) return item;
  return {
    ...item,
    documentation: {
      kind: isMarkdown ? MarkupKind.Markdown : MarkupKind.PlainText,
      value: toldText(told, isMarkdown),
    },
  };
}

/** Data comes back from the editor, which may send anything. */
function aboutFrom(data: unknown): About | null {
  if (typeof data !== 'object' || data === null) return null;
  const { kind, name } = data as Partial<About>;
  return typeof kind === 'string' && typeof name === 'string' ? { kind, name } : null;
}

function toldAbout({ kind, name }: About): readonly Told[] {
  switch (kind) {
    case 'term': {
      const term = findTerm(name);
      if (term === null) return [];
      return [...toldOfTerm(term), { kind: 'fact', label: 'Example', text: term.example, isFormula: true }];
    }
    case 'instrument': {
      const instrument = instrumentNamed(name);
      return instrument === null ? [] : toldOfInstrument(instrument);
    }
    case 'rule': {
      const rule = RULE_ENTRIES.find(entry => entry.name === name);
      return rule === undefined ? [] : [{ kind: 'words', text: rule.summary }];
    }
    default:
      return [];
  }
}
