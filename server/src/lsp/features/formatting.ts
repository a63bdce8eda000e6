import {
  type Disposable,
  type DocumentFormattingParams,
  DocumentFormattingRequest,
  type DocumentRangeFormattingParams,
  DocumentRangeFormattingRequest,
  type TextEdit,
} from 'vscode-languageserver';
import { tidyEdits } from '../../actions/tidy-block.ts';
import type { Span } from '../../language/syntax.ts';
import { spanFrom, textEditsFrom } from '../convert.ts';
import type { Feature, Server } from '../feature.ts';

const NOTES = { documentSelector: [{ language: 'markdown' }] };

/**
 * Tidies the blocks of a note where the editor formats it, and nothing else of it.
 *
 * Only for those who switch it on (`leastwise.format.enable`): an editor takes whoever formats a language for the one
 * that formats all of it, and Markdown has others for that.
 */
export const formatting: Feature = {
  announced: () => ({}),
  listen(server) {
    const { connection, client } = server;
    connection.onDocumentFormatting(
      server.answering<DocumentFormattingParams, TextEdit[]>('tidying the blocks', [], ({ textDocument }) =>
        formatted(server, textDocument.uri, () => null),
      ),
    );
    connection.onDocumentRangeFormatting(
      server.answering<DocumentRangeFormattingParams, TextEdit[]>(
        'tidying the blocks',
        [],
        ({ textDocument, range }) =>
          formatted(server, textDocument.uri, document => spanFrom(document, range)),
      ),
    );
    const canRegister = client.textDocument?.formatting?.dynamicRegistration === true;
    if (canRegister && client.workspace?.configuration === true) followSetting(server);
  },
};

function formatted(
  server: Server,
  uri: string,
  spanIn: (document: Parameters<typeof spanFrom>[0]) => Span | null,
): TextEdit[] {
  const open = server.note(uri);
  if (open === null || open.note === null) return [];
  const { text, note, checked, document } = open;
  return textEditsFrom(document, tidyEdits({ text, note, checked }, spanIn(document)));
}

/** Formats as long as the setting says so. */
function followSetting({ connection, documents, settings }: Server): void {
  let registered: Promise<readonly Disposable[]> | null = null;
  /** One thing after the other, so that what was switched on and off is off. */
  let last: Promise<void> = Promise.resolve();
  const follow = async (): Promise<void> => {
    const isOn = (await connection.workspace.getConfiguration('leastwise.format.enable')) === true;
    if (isOn === (registered !== null)) return;
    if (isOn) {
      registered = Promise.all([
        connection.client.register(DocumentFormattingRequest.type, NOTES),
        connection.client.register(DocumentRangeFormattingRequest.type, NOTES),
      ]);
      return;
    }
    for (const each of (await registered) ?? []) each.dispose();
    registered = null;
  };
  const followInTurn = (): void => {
    last = last.then(follow).catch((error: unknown) => {
      connection.console.error(`the editor did not tell whether to format: ${String(error)}`);
    });
  };
  const first = documents.onDidOpen(() => {
    first.dispose();
    followInTurn();
  });
  settings.onChange(followInTurn);
}
