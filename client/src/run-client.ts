import { commands, type ExtensionContext, l10n, type Uri } from 'vscode';
import { type BaseLanguageClient, type LanguageClientOptions, State } from 'vscode-languageclient';
import { afterAnEnd, errorHandler } from './after-an-end.ts';
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
    const launched = launch(optionsWith(context.extensionUri, notes, status));
    const { client } = launched;
    const starting = { ...launched, files: serveFiles(client) };
    running = starting;
    // A start that fails may be told of once more when the connection closes: that is still one end.
    let isOver = false;
    client.onDidChangeState(({ newState }) => {
      if (isOver || running !== starting) return;
      isOver = newState === State.Stopped || newState === State.StartFailed;
      if (isOver) ended();
    });
    // One that ends while it starts has told so above.
    await client.start().catch(() => {});
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

  const restart = () => inTurn(async () => stop().then(start));
  const ended = afterAnEnd(
    () => void restart(),
    () => void inTurn(async () => stop().then(() => status.say(l10n.t('Notes are not checked')))),
  );
  const service: Service = {
    running: () => (running?.client.isRunning() === true ? running : null),
    restart,
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
): LanguageClientOptions {
  return {
    documentSelector: notes,
    initializationOptions: SERVES_FILES,
    errorHandler,
    // A server that ends while it starts is spoken of as any other, and not in the words of a protocol as well.
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
