import { commands, type ExtensionContext, l10n, type Uri } from 'vscode';
import type { BaseLanguageClient, LanguageClientOptions } from 'vscode-languageclient';
import { afterACrash } from './after-a-crash.ts';
import { registerApplying, throughCommand } from './apply-if-unchanged.ts';
import { registerCommands } from './commands/all.ts';
import { SERVES_FILES, type ServedFiles, serveFiles } from './files/serve-files.ts';
import type { Launch, Launched } from './launch.ts';
import { markdownNotes } from './markdown-notes.ts';
import { type NoteStatus, noteStatus } from './note-status.ts';
import { withRuleLinks } from './rule-links.ts';

/** The server as the rest of the extension sees it. */
export interface Service {
  /** What runs; null while nothing does. */
  running(): Running | null;
  restart(): Promise<void>;
  end(): Promise<void>;
}

export interface Running {
  readonly client: BaseLanguageClient;
  readonly files: ServedFiles;
}

/** Starts the server and all that belongs to it; the one who calls ends it. */
export async function runClient(context: ExtensionContext, launch: Launch): Promise<Service> {
  const notes = markdownNotes();
  const status = noteStatus(notes);
  let running: (Launched & Running) | null = null;
  /** One thing after the other: who restarts twice in a hurry gets one server. */
  let last: Promise<void> = Promise.resolve();
  const inTurn = (work: () => Promise<void>) => {
    last = last.then(work, work);
    return last;
  };

  async function start(): Promise<void> {
    status.say(null);
    const launched = launch(optionsWith(context.extensionUri, notes, status, service));
    const { client } = launched;
    running = { ...launched, files: serveFiles(client) };
    try {
      await client.start();
    } catch (error) {
      status.say(l10n.t('Notes are not checked'));
      throw error;
    }
  }

  async function stop(): Promise<void> {
    const ending = running;
    running = null;
    if (ending === null) return;
    ending.files.dispose();
    try {
      await ending.client.dispose();
    } catch {
      // It had ended by itself.
    }
    ending.clearAway();
  }

  const service: Service = {
    running: () => (running?.client.isRunning() === true ? running : null),
    restart: () => inTurn(async () => stop().then(start)),
    end: () => inTurn(stop),
  };
  context.subscriptions.push(status, registerApplying(), ...registerCommands(context, service, status));
  await inTurn(start);
  await commands.executeCommand('setContext', 'leastwise.isRunning', true);
  return service;
}

function optionsWith(
  extension: Uri,
  notes: ReturnType<typeof markdownNotes>,
  status: NoteStatus,
  service: Service,
): LanguageClientOptions {
  return {
    documentSelector: notes,
    initializationOptions: SERVES_FILES,
    errorHandler: afterACrash(
      () => service.restart().catch(() => {}),
      () => status.say(l10n.t('Notes are not checked')),
    ),
    // A server that ends while it starts is spoken of above, and not in the words of a protocol as well.
    initializationFailedHandler: () => false,
    middleware: {
      ...throughCommand,
      handleDiagnostics: (uri, diagnostics, next) => next(uri, withRuleLinks(extension, diagnostics)),
      async provideDiagnostics(document, previous, token, next) {
        const report = await status.whileChecking(Promise.resolve(next(document, previous, token)));
        if (report?.kind === 'full') report.items = withRuleLinks(extension, report.items);
        return report;
      },
      provideWorkspaceDiagnostics: (previous, token, report, next) =>
        next(previous, token, chunk => {
          for (const item of chunk?.items ?? [])
            if (item.kind === 'full') item.items = withRuleLinks(extension, item.items);
          report(chunk);
        }),
    },
  };
}
