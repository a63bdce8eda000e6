import { type Hover, type HoverParams, MarkupKind } from 'vscode-languageserver';
import { offsetFrom, rangeFrom } from '../convert.ts';
import type { Feature } from '../feature.ts';
import { type FeatureSettings, featureSettings, USUAL_SETTINGS } from '../feature-settings.ts';
import { hoverFigure } from '../hover-figure.ts';
import { nearBlocks } from '../near-blocks.ts';
import { fenceAt, noteStructure } from '../note-structure.ts';
import type { OpenNote } from '../open-notes.ts';
import { pointedAt } from '../pointed-at.ts';
import { toldText } from '../told.ts';
import { toldOf } from '../told-of.ts';

/** What the pointer rests on: how a claim follows, what a word of the trade means, what an instrument is. */
export const hover: Feature = {
  announced: () => ({ hoverProvider: true }),
  listen(server) {
    const formats = server.client.textDocument?.hover?.contentFormat;
    const isMarkdown = formats === undefined || formats.includes(MarkupKind.Markdown);
    // Others show an image as the thousands of letters that it is made of.
    const showsImages = server.client.general?.markdown?.parser === 'marked';
    server.connection.onHover(
      server.answering<HoverParams, Hover | null>('the working', null, ({ textDocument, position }) => {
        const open = server.note(textDocument.uri);
        if (open === null) return null;
        const settings = featureSettings(server, textDocument.uri);
        return hoverAt(open, offsetFrom(open.document, position), isMarkdown, settings, showsImages);
      }),
    );
  },
};

/** What an editor shows at a place of a note; null where there is nothing to tell. */
export function hoverAt(
  open: Pick<OpenNote, 'document' | 'text'>,
  offset: number,
  isMarkdown: boolean,
  { settings }: FeatureSettings = USUAL_SETTINGS,
  showsImages = false,
): Hover | null {
  const structure = noteStructure(open);
  const fence = fenceAt(structure, offset);
  const span = structure.codeSpans.find(
    ({ start, text }) => start <= offset && offset <= start + text.length,
  );
  if (fence === null && span === undefined) return null;
  const near =
    fence === null
      ? nearBlocks(open.text, structure, [], span && [span], settings)
      : nearBlocks(open.text, structure, [fence], [], settings);
  const pointed = pointedAt(near, offset);
  const text = pointed === null ? '' : toldText(toldOf(near, pointed), isMarkdown);
  if (pointed === null || text === '') return null;
  const figure = isMarkdown && showsImages ? hoverFigure(near, pointed) : '';
  const value = figure === '' ? text : `${text}\n\n${figure}`;
  return {
    contents: { kind: isMarkdown ? MarkupKind.Markdown : MarkupKind.PlainText, value },
    range: rangeFrom(open.document, pointed.span),
  };
}
