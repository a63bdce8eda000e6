import { type InlayHint, InlayHintKind, type InlayHintParams } from 'vscode-languageserver';
import { type Fence, type Span, spanOf } from '../../language/syntax.ts';
import { spanFrom, textEditsFrom } from '../convert.ts';
import type { Feature } from '../feature.ts';
import { type FeatureSettings, featureSettings, USUAL_SETTINGS } from '../feature-settings.ts';
import { hintsOf } from '../hints-of.ts';
import { keptByGroup } from '../kept-by-group.ts';
import type { OpenNote } from '../open-notes.ts';

/** Values between the words of a note: the answer beside `?`, the least count, the zero error. */
export const inlayHint: Feature = {
  announced: () => ({ inlayHintProvider: true }),
  listen(server) {
    if (server.client.workspace?.inlayHint?.refreshSupport === true)
      server.settings.onChange(() => server.connection.languages.inlayHint.refresh());
    server.connection.languages.inlayHint.on(
      server.answering<InlayHintParams, InlayHint[]>(
        'working out what to show',
        [],
        ({ textDocument, range }) => {
          const open = server.note(textDocument.uri);
          if (open === null) return [];
          return inlayHintsOf(
            open,
            spanFrom(open.document, range),
            featureSettings(server, textDocument.uri),
          );
        },
      ),
    );
  },
};

/** The hints in a part of a note; only its blocks are looked at. */
export function inlayHintsOf(
  open: Pick<OpenNote, 'document' | 'text'>,
  part: Span,
  { settings, inlayHints }: FeatureSettings = USUAL_SETTINGS,
): InlayHint[] {
  const { document } = open;
  const isWanted = ({ span }: Fence): boolean => span.start <= part.end && part.start <= span.end;
  return hintsIn(open, isWanted, settings).flatMap(({ fence, found }) =>
    found
      .map(hint => ({ ...hint, offset: fence.span.start + hint.offset }))
      .filter(({ kind, offset }) => inlayHints[kind] && part.start <= offset && offset <= part.end)
      .map(({ kind, offset, text: label, length }) => ({
        position: document.positionAt(offset),
        label,
        kind: InlayHintKind.Type,
        paddingLeft: true,
        ...(kind === 'answers'
          ? {
              textEdits: textEditsFrom(document, [{ span: spanOf(offset - length, offset), newText: label }]),
            }
          : {}),
      })),
  );
}

const hintsIn = keptByGroup((near, index) => {
  const from = near.fences[index]!.span.start;
  return hintsOf(near, index).map(hint => ({ ...hint, offset: hint.offset - from }));
});
