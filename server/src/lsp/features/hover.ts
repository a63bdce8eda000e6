import { type Hover, type HoverParams, MarkupKind } from 'vscode-languageserver';
import type { NoteCheck } from '../../checks/note-check.ts';
import { ownerOf } from '../../language/facts-error.ts';
import type { Claim } from '../../language/measurement.ts';
import { derivationText } from '../../render/derivation-text.ts';
import { workingOf } from '../../workings/working.ts';
import { offsetFrom, rangeFrom } from '../convert.ts';
import type { Feature } from '../feature.ts';
import type { OpenNote } from '../open-notes.ts';

/** The short working of a claim, where the pointer rests on it. */
export const hover: Feature = {
  announced: () => ({ hoverProvider: true }),
  listen(server) {
    const formats = server.client.textDocument?.hover?.contentFormat;
    const isMarkdown = formats === undefined || formats.includes(MarkupKind.Markdown);
    server.connection.onHover(
      server.answering<HoverParams, Hover | null>('the working', null, ({ textDocument, position }) => {
        const open = server.note(textDocument.uri);
        return open === null ? null : hoverAt(open, offsetFrom(open.document, position), isMarkdown);
      }),
    );
  },
};

/** What an editor shows at a place of a note; null where there is nothing to tell. */
export function hoverAt({ note, document }: OpenNote, offset: number, isMarkdown: boolean): Hover | null {
  const found = note === null ? null : claimAt(note, offset);
  if (note === null || found === null) return null;
  // A claim about another block is worked where that block has its records.
  const home = ownerOf(note.facts.block(found.block), found.claim.subject);
  const working = home && workingOf(note, home.facts.index, home.subject);
  if (working === null) return null;
  const text = derivationText([working.derivation]);
  if (text === '') return null;
  return {
    contents: isMarkdown
      ? { kind: MarkupKind.Markdown, value: `\`\`\`text\n${text}\n\`\`\`` }
      : { kind: MarkupKind.PlainText, value: text },
    range: rangeFrom(document, found.claim.span),
  };
}

/** The claim in which a place lies, and its block. */
export function claimAt(
  note: NoteCheck,
  offset: number,
): { readonly block: number; readonly claim: Claim } | null {
  for (const [block, { claims }] of note.measurements.entries()) {
    const claim = claims.find(({ span }) => span.start <= offset && offset <= span.end);
    if (claim !== undefined) return { block, claim };
  }
  return null;
}
