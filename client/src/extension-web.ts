import { type ExtensionContext, Uri } from 'vscode';
import { LanguageClient, type ServerOptions } from 'vscode-languageclient/browser';
import { extendPreview, type PreviewExtension } from './preview/extend-preview.ts';
import { runClient, type Service } from './run-client.ts';

/** A browser's worker, as far as it is used here. */
type ServerWorker = ServerOptions & { terminate(): void };
declare const Worker: new (address: string) => ServerWorker;

let service: Service | null = null;

/** Starts the language server in a worker of the browser; the editor calls it when the first note is opened. */
export async function activate(context: ExtensionContext): Promise<PreviewExtension> {
  const address = Uri.joinPath(context.extensionUri, 'client/dist/server-web.js').toString(true);
  service = await runClient(context, options => {
    const worker = new Worker(address);
    return {
      client: new LanguageClient('leastwise', 'leastwise', worker, options),
      clearAway: () => worker.terminate(),
    };
  });
  return extendPreview(context);
}

/** Ends the worker, and with it all that it showed. */
export async function deactivate(): Promise<void> {
  await service?.end();
  service = null;
}
