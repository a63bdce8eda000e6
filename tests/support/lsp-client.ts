import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { onTestFinished } from 'vitest';
import {
  type ClientCapabilities,
  type CodeAction,
  type CodeActionContext,
  createProtocolConnection,
  type Diagnostic,
  type DocumentDiagnosticReport,
  type Hover,
  type InitializeResult,
  type Position,
  type ProtocolConnection,
  type PublishDiagnosticsParams,
  type Range,
  StreamMessageReader,
  StreamMessageWriter,
  type TextDocumentContentChangeEvent,
} from 'vscode-languageserver/node';
import { LAUNCHER } from './command.ts';

/** How long an answer may take before a test gives up. */
const DEADLINE = 30_000;

/** An editor for a test: the server as a process of its own, spoken to over its standard input and output. */
export interface LspClient {
  readonly process: ChildProcess;
  readonly connection: ProtocolConnection;
  readonly initialized: InitializeResult;
  /** What the server wrote into the editor's log. */
  readonly log: readonly string[];
  open(uri: string, text: string, languageId?: string): void;
  change(uri: string, version: number, changes: readonly TextDocumentContentChangeEvent[]): void;
  close(uri: string): void;
  request<Result>(method: string, params: unknown): Promise<Result>;
  notify(method: string, params: unknown): void;
  /** The findings of a note that were last sent unasked, as soon as they satisfy `when`. */
  pushed(uri: string, when?: (params: PublishDiagnosticsParams) => boolean): Promise<readonly Diagnostic[]>;
  /** How often findings of a note were sent unasked. */
  pushes(uri: string): number;
  pulled(uri: string, previousResultId?: string): Promise<DocumentDiagnosticReport>;
  hover(uri: string, position: Position): Promise<Hover | null>;
  codeActions(uri: string, range: Range, context?: Partial<CodeActionContext>): Promise<CodeAction[]>;
  resolve(action: CodeAction): Promise<CodeAction>;
  /** Says goodbye as an editor does; gives the exit status of the process. */
  end(): Promise<number | null>;
}

/** What an editor of today can do. */
export const MODERN: ClientCapabilities = {
  workspace: { workspaceEdit: { documentChanges: true } },
  textDocument: {
    hover: { contentFormat: ['markdown', 'plaintext'] },
    diagnostic: {},
    publishDiagnostics: { relatedInformation: true, tagSupport: { valueSet: [1, 2] } },
    codeAction: {
      dataSupport: true,
      resolveSupport: { properties: ['edit'] },
      codeActionLiteralSupport: { codeActionKind: { valueSet: ['', 'quickfix', 'refactor', 'source'] } },
    },
  },
};

/** The same, but it waits for findings instead of asking for them. */
export const WAITING: ClientCapabilities = {
  ...MODERN,
  textDocument: { ...MODERN.textDocument, diagnostic: undefined },
};

/** What an editor offers beside the protocol. */
export interface Offering {
  readonly initializationOptions?: object;
  /** Its answers to what the server asks, by the method. */
  readonly answers?: Readonly<Record<string, (params: never) => unknown>>;
  /** Words for the Node that the server runs in. */
  readonly nodeOptions?: readonly string[];
}

/** Starts the server and greets it; both are gone when the test ends. */
export async function lspClient(
  capabilities: ClientCapabilities = MODERN,
  { initializationOptions, answers = {}, nodeOptions = [] }: Offering = {},
): Promise<LspClient> {
  const server = spawn(process.execPath, [...nodeOptions, LAUNCHER, 'serve', '--stdio'], {
    stdio: ['pipe', 'pipe', 'inherit'],
  });
  onTestFinished(() => {
    connection.dispose();
    server.kill();
  });
  const connection = createProtocolConnection(
    new StreamMessageReader(server.stdout),
    new StreamMessageWriter(server.stdin),
  );
  const sent = new Map<string, PublishDiagnosticsParams[]>();
  const watching = new Set<() => void>();
  const log: string[] = [];
  connection.onNotification('textDocument/publishDiagnostics', (params: PublishDiagnosticsParams) => {
    sent.set(params.uri, [...(sent.get(params.uri) ?? []), params]);
    for (const look of watching) look();
  });
  connection.onNotification('window/logMessage', ({ message }: { message: string }) => {
    log.push(message);
  });
  for (const [method, answer] of Object.entries(answers))
    connection.onRequest(method, (params: never) => answer(params));
  connection.listen();

  const request = <Result>(method: string, params: unknown): Promise<Result> =>
    inTime(method, connection.sendRequest<Result>(method, params));
  const notify = (method: string, params: unknown): void => {
    connection.sendNotification(method, params).catch(() => {
      // A test that ends the server says so itself.
    });
  };
  const initialized = await request<InitializeResult>('initialize', {
    processId: process.pid,
    rootUri: null,
    capabilities,
    initializationOptions,
  });
  notify('initialized', {});

  return {
    process: server,
    connection,
    initialized,
    log,
    request,
    notify,
    open: (uri, text, languageId = 'markdown') =>
      notify('textDocument/didOpen', { textDocument: { uri, languageId, version: 1, text } }),
    change: (uri, version, contentChanges) =>
      notify('textDocument/didChange', { textDocument: { uri, version }, contentChanges }),
    close: uri => notify('textDocument/didClose', { textDocument: { uri } }),
    pushed: (uri, when = () => true) =>
      inTime(
        `findings of ${uri}`,
        new Promise(settle => {
          const look = () => {
            const last = sent.get(uri)?.at(-1);
            if (last === undefined || !when(last)) return;
            watching.delete(look);
            settle(last.diagnostics);
          };
          watching.add(look);
          look();
        }),
      ),
    pushes: uri => sent.get(uri)?.length ?? 0,
    pulled: (uri, previousResultId) =>
      request('textDocument/diagnostic', { textDocument: { uri }, previousResultId }),
    hover: (uri, position) => request('textDocument/hover', { textDocument: { uri }, position }),
    codeActions: async (uri, range, context = {}) =>
      (await request<CodeAction[] | null>('textDocument/codeAction', {
        textDocument: { uri },
        range,
        context: { diagnostics: [], ...context },
      })) ?? [],
    resolve: action => request('codeAction/resolve', action),
    async end() {
      const exit = once(server, 'exit') as Promise<[number | null]>;
      await request('shutdown', null);
      notify('exit', null);
      const [status] = await inTime('the end', exit);
      return status;
    },
  };
}

async function inTime<T>(what: string, waited: Promise<T>): Promise<T> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new Error(`no answer in time: ${what}`)), DEADLINE);
  });
  try {
    return await Promise.race([waited, late]);
  } finally {
    clearTimeout(timer);
  }
}
