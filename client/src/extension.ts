import type { ExtensionContext } from 'vscode';
import { LanguageClient, type LanguageClientOptions, TransportKind } from 'vscode-languageclient/node';
import { registerApplying, throughCommand } from './apply-if-unchanged.ts';
import { MARKDOWN_NOTES } from './markdown-notes.ts';

let client: LanguageClient | null = null;

/** Starts the language server for the Markdown notes of this window; the editor calls it when the first one is opened. */
export async function activate(context: ExtensionContext): Promise<void> {
  const options: LanguageClientOptions = {
    documentSelector: [...MARKDOWN_NOTES],
    middleware: throughCommand,
  };
  const server = { module: context.asAbsolutePath('server/dist/server.cjs'), transport: TransportKind.ipc };
  client = new LanguageClient('leastwise', 'leastwise', server, options);
  context.subscriptions.push(registerApplying());
  await client.start();
}

/** Ends the server, and with it all that it showed. */
export async function deactivate(): Promise<void> {
  await client?.stop();
  client = null;
}
