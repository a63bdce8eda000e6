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

export function documentSymbolsOf({ note, document }: OpenNote): DocumentSymbol[] {
  if (note === null) return [];
  return note.measurements.slice(0, note.fences).map((measurement): DocumentSymbol => {
    const { name, nameSpan, instrument, fence } = measurement;
    return {
      name: name ?? 'measurement',
      ...(instrument === null ? {} : { detail: instrument }),
      kind: SymbolKind.Module,
      range: rangeFrom(document, fence.span),
      selectionRange: rangeFrom(document, nameSpan ?? fence.infoSpan),
      children: [...entriesOf(measurement)]
        .filter(({ span }) => isHere(measurement, span))
        .sort((a, b) => a.span.start - b.span.start)
        .map(entry => symbolFrom(document, entry)),
    };
  });
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
