import {
  type SemanticTokens,
  SemanticTokensBuilder,
  type SemanticTokensParams,
  type SemanticTokensRangeParams,
} from 'vscode-languageserver';
import { type Fence, type Span, spanOf } from '../../language/syntax.ts';
import { spanFrom } from '../convert.ts';
import type { Feature } from '../feature.ts';
import { keptByGroup } from '../kept-by-group.ts';
import type { OpenNote } from '../open-notes.ts';
import { TOKEN_KINDS, tokenKinds } from '../token-kinds.ts';

/** Tells what each word of a block means, so that an editor can colour it. */
export const semanticTokens: Feature = {
  announced: () => ({
    semanticTokensProvider: {
      legend: { tokenTypes: [...TOKEN_KINDS], tokenModifiers: [] },
      full: true,
      range: true,
    },
  }),
  listen(server) {
    const none: SemanticTokens = { data: [] };
    const { semanticTokens: asked } = server.connection.languages;
    asked.on(
      server.answering<SemanticTokensParams, SemanticTokens>('colouring', none, ({ textDocument }) => {
        const open = server.note(textDocument.uri);
        return open === null ? none : semanticTokensOf(open, spanOf(0, open.text.length));
      }),
    );
    asked.onRange(
      server.answering<SemanticTokensRangeParams, SemanticTokens>(
        'colouring',
        none,
        ({ textDocument, range }) => {
          const open = server.note(textDocument.uri);
          return open === null ? none : semanticTokensOf(open, spanFrom(open.document, range));
        },
      ),
    );
  },
};

/** The words of the blocks in a part of a note, as the protocol packs them. */
export function semanticTokensOf(open: Pick<OpenNote, 'document' | 'text'>, part: Span): SemanticTokens {
  const builder = new SemanticTokensBuilder();
  const isWanted = ({ span }: Fence): boolean => span.start <= part.end && part.start <= span.end;
  for (const { fence, found } of kindsIn(open, isWanted)) {
    for (const { kind, span } of found) {
      const { line, character } = open.document.positionAt(fence.span.start + span.start);
      builder.push(line, character, span.end - span.start, TOKEN_KINDS.indexOf(kind), 0);
    }
  }
  return { data: builder.build().data };
}

const kindsIn = keptByGroup((near, index) => {
  const from = near.fences[index]!.span.start;
  return tokenKinds(near, index).map(({ kind, span }) => ({
    kind,
    span: spanOf(span.start - from, span.end - from),
  }));
});
