import type { SelectionRange, SelectionRangeParams } from 'vscode-languageserver';
import { parseBlock } from '../../language/parser.ts';
import { offsetFrom, rangeFrom } from '../convert.ts';
import type { Feature } from '../feature.ts';
import { fenceAt, noteStructure } from '../note-structure.ts';
import type { OpenNote } from '../open-notes.ts';
import { selectionSpans } from '../selection-spans.ts';

/** Grows a selection from a number to its value, its link, its line, its block. */
export const selectionRange: Feature = {
  announced: () => ({ selectionRangeProvider: true }),
  listen(server) {
    server.connection.onSelectionRanges(
      server.answering<SelectionRangeParams, SelectionRange[] | null>(
        'growing the selection',
        null,
        ({ textDocument, positions }) => {
          const open = server.note(textDocument.uri);
          if (open === null) return null;
          return selectionRangesAt(
            open,
            positions.map(position => offsetFrom(open.document, position)),
          );
        },
      ),
    );
  },
};

/** One for each place, as the protocol wants it; outside of blocks an empty one, so that others may answer. */
export function selectionRangesAt(
  open: Pick<OpenNote, 'document' | 'text'>,
  offsets: readonly number[],
): SelectionRange[] {
  const structure = noteStructure(open);
  return offsets.map(offset => {
    const fence = fenceAt(structure, offset);
    const spans = fence === null ? [] : selectionSpans(parseBlock(fence), offset);
    const empty: SelectionRange = { range: rangeFrom(open.document, { start: offset, end: offset }) };
    let outer: SelectionRange | undefined;
    for (const span of spans.toReversed())
      outer = { range: rangeFrom(open.document, span), ...(outer === undefined ? {} : { parent: outer }) };
    return outer ?? empty;
  });
}
