import { commands, type ExtensionContext, l10n } from 'vscode';
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
    const launched = launch(optionsWith(notes, status, service));
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
    middleware: {
      ...throughCommand,
      didClose: (d: any, n: any) => { console.log('suite │ close', String(d.uri).slice(-14)); return n(d); },
      didOpen: (d: any, n: any) => { console.log('suite │ open', String(d.uri).slice(-14)); return n(d); },
 sendNotification: (type: any, next: any, params: any) => { if (typeof type === 'string' && type.startsWith('leastwise')) console.log('suite │ >', type, JSON.stringify(params)); return next(type, params) as any; },
      handleDiagnostics: (uri, diagnostics, next) => next(uri, withRuleLinks(diagnostics)),
      async provideDiagnostics(document, previous, token, next) {
        const report = await status.whileChecking(Promise.resolve(next(document, previous, token)));
        console.log('suite │ doc', String((document as any).uri ?? document).slice(-14), previous, report?.kind, (report as any)?.items?.length, token.isCancellationRequested);
        if (report?.kind === 'full') report.items = withRuleLinks(report.items);
        return report;
      },
      provideWorkspaceDiagnostics: (previous, token, report, next) =>
        next((console.log('suite │ ask', previous.length, previous.filter(p => /bench/.test(String(p.uri))).map(p => String(p.uri).slice(-14) + p.value).join()), previous), token, chunk => {
          console.log('suite │ ws', chunk?.items.filter(i => /bench/.test(String(i.uri))).map(i => [String(i.uri).slice(-14), i.kind, (i as any).items?.length, i.resultId].join(' ')).join('; '));
          for (const item of chunk?.items ?? [])
            if (item.kind === 'full') item.items = withRuleLinks(item.items);
          report(chunk);
        }),
    },
  };
}
