import {
  type DocumentSymbol,
  type DocumentSymbolParams,
  type SymbolInformation,
  SymbolKind,
} from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import { isHere } from '../../checks/record-lacks.ts';
import type { Measurement } from '../../language/measurement.ts';
import type { Span } from '../../language/syntax.ts';
import { rangeFrom } from '../convert.ts';
import type { Feature } from '../feature.ts';
import { keptByGroup } from '../kept-by-group.ts';
import type { OpenNote } from '../open-notes.ts';

/** The outline of a note: its blocks, and in each what it works out, its own quantities and its labelled rows. */
export const documentSymbol: Feature = {
  announced: () => ({ documentSymbolProvider: { label: 'leastwise' } }),
  listen(server) {
    const isNested = server.client.textDocument?.documentSymbol?.hierarchicalDocumentSymbolSupport === true;
    server.connection.onDocumentSymbol(
      server.answering<DocumentSymbolParams, DocumentSymbol[] | SymbolInformation[]>(
        'the outline',
        [],
        ({ textDocument: { uri } }) => {
          const open = server.note(uri);
          const symbols = open === null ? [] : documentSymbolsOf(open);
          return isNested ? symbols : symbols.flatMap(symbol => flat(uri, symbol, null));
        },
      ),
    );
  },
};

/** The outline; of a long note only the blocks are looked at anew that have changed. */
export function documentSymbolsOf(open: Pick<OpenNote, 'document' | 'text' | 'settings'>): DocumentSymbol[] {
  const { document, settings } = open;
  return outlines(open, () => true, settings).flatMap(({ fence, found }) =>
    found.map(({ name, detail, nameSpan, entries }): DocumentSymbol => {
      const { start } = fence.span;
      return {
        name,
        ...(detail === null ? {} : { detail }),
        kind: SymbolKind.Module,
        range: rangeFrom(document, fence.span),
        selectionRange: rangeFrom(document, nameSpan === null ? fence.infoSpan : movedBy(nameSpan, start)),
        children: entries.map(entry => symbolFrom(document, { ...entry, span: movedBy(entry.span, start) })),
      };
    }),
  );
}

/** A block in the outline; its places are counted from its start. */
interface Outline {
  readonly name: string;
  readonly detail: string | null;
  readonly nameSpan: Span | null;
  readonly entries: readonly Entry[];
}

const outlines = keptByGroup((near, index): readonly Outline[] => {
  const measurement = near.check().measurements[index]!;
  const { name, nameSpan, instrument, fence } = measurement;
  const { start } = fence.span;
  return [
    {
      name: ownCopy(name ?? 'measurement'),
      detail: instrument,
      nameSpan: nameSpan && movedBy(nameSpan, -start),
      entries: [...entriesOf(measurement)]
        .filter(({ span }) => isHere(measurement, span))
        .sort((a, b) => a.span.start - b.span.start)
        .map(entry => ({
          ...entry,
          name: ownCopy(entry.name),
          detail: entry.detail && ownCopy(entry.detail),
          span: movedBy(entry.span, -start),
        })),
    },
  ];
});

function movedBy({ start, end }: Span, by: number): Span {
  return { start: start + by, end: end + by };
}

/** Text that was cut out of a note would keep the whole of it in memory. */
function ownCopy(text: string): string {
  return `${text} `.slice(0, -1);
}

interface Entry {
  readonly name: string;
  readonly detail: string | null;
  readonly kind: SymbolKind;
  readonly span: Span;
}

function* entriesOf(measurement: Measurement): Generator<Entry> {
  const { claims, own, rows, question } = measurement;
  for (const { subjectText, links, span, inTable, mended } of claims) {
    if (inTable || mended || subjectText.trim() === '') continue;
    const last = links.at(-1)?.content;
    const detail = last?.kind === 'stated' ? last.stated.text : last?.kind === 'asked' ? '?' : null;
    yield { name: subjectText, detail, kind: SymbolKind.Variable, span };
  }
  for (const [name, record] of own) {
    const span = record.kind === 'value' ? record.given.span : record.span;
    const detail = record.kind === 'value' ? record.given.stated.text : null;
    yield { name, detail, kind: SymbolKind.Constant, span };
  }
  for (const { label, span } of rows) {
    if (label !== null) yield { name: label, detail: null, kind: SymbolKind.Key, span };
  }
  for (const { letter, text, span } of question.options) {
    yield { name: `option ${letter}`, detail: text, kind: SymbolKind.EnumMember, span };
  }
}

function symbolFrom(document: TextDocument, { name, detail, kind, span }: Entry): DocumentSymbol {
  const range = rangeFrom(document, span);
  return { name, ...(detail === null ? {} : { detail }), kind, range, selectionRange: range };
}

/** For editors that know no outline within an outline. */
function flat(uri: string, symbol: DocumentSymbol, containerName: string | null): SymbolInformation[] {
  const { name, kind, range, children = [] } = symbol;
  return [
    { name, kind, location: { uri, range }, ...(containerName === null ? {} : { containerName }) },
    ...children.flatMap(child => flat(uri, child, name)),
  ];
}
