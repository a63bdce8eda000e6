import type { ExtensionContext } from 'vscode';
import { LanguageClient, TransportKind } from 'vscode-languageclient/node';
import { extendPreview, type PreviewExtension } from './preview/extend-preview.ts';
import { runClient, type Service } from './run-client.ts';

let service: Service | null = null;

/** Starts the language server for the Markdown notes of this window; the editor calls it when the first one is opened. */
export async function activate(context: ExtensionContext): Promise<PreviewExtension> {
  const server = { module: context.asAbsolutePath('server/dist/server.cjs'), transport: TransportKind.ipc };
  service = await runClient(context, options => ({
    client: new LanguageClient('leastwise', 'leastwise', server, options),
    clearAway: () => {},
  }));
  return extendPreview(context);
}

/** Ends the server, and with it all that it showed. */
export async function deactivate(): Promise<void> {
  await service?.end();
  service = null;
}
