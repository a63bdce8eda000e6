import { beforeAll, describe, expect, it } from 'vitest';
import {
  CancellationTokenSource,
  type Diagnostic,
  ProgressType,
  type WorkspaceDiagnosticReport,
  type WorkspaceDocumentDiagnosticReport,
} from 'vscode-languageserver';
import { buildIfStale } from '../support/build-if-stale.ts';
import { type LspClient, lspClient, MODERN, WAITING } from '../support/lsp-client.ts';
import { PLAIN_NOTE, RIGHT_NOTE, WARNING_NOTE, WRONG_NOTE } from '../support/workshop-notes.ts';

beforeAll(buildIfStale);

type Report = WorkspaceDocumentDiagnosticReport;

const PIECES = new ProgressType<WorkspaceDiagnosticReport>();

/** An editor with notes on its disk that nobody has opened; it shows what it is told of them. */
interface Workspace {
  readonly client: LspClient;
  readonly files: Map<string, string>;
  /** What the file of notes to leave out says, of the folder of all notes; null where there is none. */
  leftOut: string | null;
  /** What each note shows: its rules. */
  readonly shown: Map<string, readonly string[]>;
  /** The reports of each piece, as they came. */
  readonly pieces: Report[][];
  readonly reads: string[];
  /** Most notes that were asked for at once. */
  most(): number;
  /** Asks for news, with what is known by now; settles when the answer comes. */
  ask(piecewise?: boolean): Promise<void>;
  /** The same, and gives up. */
  cancel(): Promise<unknown>;
  changed(uris: readonly string[] | null): void;
}

async function workspace(notes: Readonly<Record<string, string>>): Promise<Workspace> {
  const files = new Map(Object.entries(notes).map(([name, text]) => [uriOf(name), text]));
  const shown = new Map<string, readonly string[]>();
  const ids = new Map<string, string>();
  const pieces: Report[][] = [];
  const reads: string[] = [];
  let [reading, most, token] = [0, 0, 0];
  const client = await lspClient(MODERN, {
    initializationOptions: { notes: true, ignoreFiles: true },
    answers: {
      'leastwise/ignore': () =>
        editor.leftOut === null ? null : { uri: 'memfs:/bench/.leastwiseignore', text: editor.leftOut },
      'leastwise/notes': () => [...files.keys()],
      'leastwise/read': async ({ uri }: { readonly uri: string }) => {
        reads.push(uri);
        reading += 1;
        most = Math.max(most, reading);
        // As a disk does, it takes a turn of the event loop.
        await new Promise(setImmediate);
        reading -= 1;
        const text = files.get(uri);
        return text === undefined ? null : { text };
      },
    },
  });
  const take = (reports: readonly Report[]): void => {
    pieces.push([...reports]);
    for (const report of reports) {
      if (report.resultId === undefined) ids.delete(report.uri);
      else ids.set(report.uri, report.resultId);
      if (report.kind === 'full') shown.set(report.uri, rulesOf(report.items));
    }
  };
  const params = (piecewise: boolean) => ({
    identifier: 'leastwise',
    previousResultIds: [...ids].map(([uri, value]) => ({ uri, value })),
    ...(piecewise ? { partialResultToken: `piece-${token}` } : {}),
  });
  const editor: Workspace = {
    client,
    files,
    leftOut: null,
    shown,
    pieces,
    reads,
    most: () => most,
    async ask(piecewise = false) {
      token += 1;
      const partly = client.connection.onProgress(PIECES, `piece-${token}`, ({ items }) => take(items));
      const { items } = await client.request<WorkspaceDiagnosticReport>(
        'workspace/diagnostic',
        params(piecewise),
      );
      partly.dispose();
      take(items);
    },
    async cancel() {
      const source = new CancellationTokenSource();
      const asked = client.connection.sendRequest('workspace/diagnostic', params(false), source.token);
      source.cancel();
      return asked.then(
        () => null,
        (error: unknown) => error,
      );
    },
    changed: uris => client.notify('leastwise/notesChanged', { uris }),
  };
  return editor;
}

function uriOf(name: string): string {
  return `memfs:/bench/${name}.md`;
}

function rulesOf(items: readonly Diagnostic[]): readonly string[] {
  return items.map(({ code }) => String(code));
}

/** Whether a promise has settled once the server has answered something that was asked after it. */
async function isSettled(waited: Promise<unknown>, { client }: Workspace): Promise<boolean> {
  let settled = false;
  void waited.then(() => {
    settled = true;
  });
  // What the server does by itself is done after a few more questions.
  for (let round = 0; round < 10; round++) await client.pulled('untitled:nothing');
  return settled;
}

const BENCH = { right: RIGHT_NOTE, wrong: WRONG_NOTE, warned: WARNING_NOTE, plain: PLAIN_NOTE };

describe('notes that nobody has opened', () => {
  it('are checked as open ones are', async () => {
    const editor = await workspace(BENCH);
    expect(editor.client.initialized.capabilities.diagnosticProvider).toMatchObject({
      workspaceDiagnostics: true,
    });
    await editor.ask();
    expect(Object.fromEntries(editor.shown)).toEqual({
      [uriOf('wrong')]: ['wrong-value'],
      [uriOf('warned')]: ['taken-as-given'],
    });
    const [closed] = editor.pieces.flat().filter(({ uri }) => uri === uriOf('wrong'));
    editor.client.open(uriOf('wrong'), WRONG_NOTE);
    const open = await editor.client.pulled(uriOf('wrong'));
    expect(closed).toMatchObject({ kind: 'full', version: null, items: (open as { items: unknown }).items });
    expect(editor.client.log).toEqual([]);
  });

  it('are told of again only when something changes', async () => {
    const editor = await workspace(BENCH);
    await editor.ask();
    const held = editor.ask();
    expect(await isSettled(held, editor)).toBe(false);
    editor.files.set(uriOf('right'), WRONG_NOTE);
    editor.files.set(uriOf('wrong'), RIGHT_NOTE);
    editor.changed([uriOf('right'), uriOf('wrong')]);
    await held;
    expect(editor.shown.get(uriOf('right'))).toEqual(['wrong-value']);
    expect(editor.shown.get(uriOf('wrong'))).toEqual([]);
    expect(editor.pieces.at(-1)).toHaveLength(2);
  });

  it('are called unchanged where they are read again and are', async () => {
    const editor = await workspace(BENCH);
    await editor.ask();
    const held = editor.ask();
    editor.changed(null);
    await held;
    const kinds = editor.pieces.at(-1)!.map(({ kind, uri }) => [kind, uri]);
    expect(kinds.sort()).toEqual([
      ['unchanged', uriOf('warned')],
      ['unchanged', uriOf('wrong')],
    ]);
    expect(editor.shown.get(uriOf('wrong'))).toEqual(['wrong-value']);
  });

  it('leave nothing behind when they are deleted, renamed or switched off', async () => {
    const editor = await workspace(BENCH);
    await editor.ask();
    let held = editor.ask();
    editor.files.delete(uriOf('wrong'));
    editor.files.set(uriOf('moved'), WRONG_NOTE);
    editor.changed([uriOf('wrong'), uriOf('moved')]);
    await held;
    expect(editor.shown.get(uriOf('wrong'))).toEqual([]);
    expect(editor.shown.get(uriOf('moved'))).toEqual(['wrong-value']);
    held = editor.ask();
    expect(await isSettled(held, editor)).toBe(false);
    const all = new Map(editor.files);
    editor.files.clear();
    editor.changed(null);
    await held;
    expect([...editor.shown.values()].flat()).toEqual([]);
    held = editor.ask();
    for (const [uri, text] of all) editor.files.set(uri, text);
    editor.changed(null);
    await held;
    expect(editor.shown.get(uriOf('moved'))).toEqual(['wrong-value']);
    // Once more to the same, as when a branch is left and taken again.
    held = editor.ask();
    editor.files.clear();
    editor.client.notify('workspace/didChangeWatchedFiles', {
      changes: [...all.keys(), uriOf('picture').replace('.md', '.png')].map(uri => ({ uri, type: 3 })),
    });
    await held;
    expect([...editor.shown.values()].flat()).toEqual([]);
  });

  it('are left out by the patterns of a file, as long as it says so', async () => {
    const editor = await workspace({ ...BENCH, 'drafts/wrong': WRONG_NOTE, 'drafts/keep': WRONG_NOTE });
    editor.leftOut = 'drafts/*\n!keep.md\n# wrong.md\n';
    await editor.ask();
    const wrong = () =>
      [...editor.shown].flatMap(([uri, rules]) => (rules.includes('wrong-value') ? [uri] : [])).sort();
    expect(wrong()).toEqual([uriOf('drafts/keep'), uriOf('wrong')]);
    let held = editor.ask();
    editor.leftOut = 'wrong.md';
    await editor.client.connection.sendNotification('leastwise/configChanged', {});
    await held;
    expect(wrong()).toEqual([uriOf('drafts/keep')]);
    held = editor.ask();
    editor.leftOut = null;
    await editor.client.connection.sendNotification('leastwise/configChanged', {});
    await held;
    expect(wrong()).toEqual([uriOf('drafts/keep'), uriOf('drafts/wrong'), uriOf('wrong')]);
    expect(editor.client.log).toEqual([]);
  });

  it('are left alone while they stand open, and told of as soon as they are closed', async () => {
    const editor = await workspace(BENCH);
    editor.client.open(uriOf('wrong'), RIGHT_NOTE);
    await editor.ask();
    expect(editor.shown.has(uriOf('wrong'))).toBe(false);
    const held = editor.ask();
    editor.changed([uriOf('wrong')]);
    expect(await isSettled(held, editor)).toBe(false);
    editor.client.close(uriOf('wrong'));
    // An editor asks for the closed note itself, too, and shows what it gets.
    expect(await editor.client.pulled(uriOf('wrong'))).toMatchObject({ items: [{ code: 'wrong-value' }] });
    await held;
    expect(editor.shown.get(uriOf('wrong'))).toEqual(['wrong-value']);
    expect(await editor.client.pulled('memfs:/elsewhere/wrong.md')).toMatchObject({ items: [] });
  });

  it('are told of in full after they were open, even where they are as before', async () => {
    const editor = await workspace(BENCH);
    await editor.ask();
    const held = editor.ask();
    editor.client.open(uriOf('wrong'), WRONG_NOTE);
    editor.client.close(uriOf('wrong'));
    await held;
    expect(editor.pieces.at(-1)).toMatchObject([{ kind: 'full', uri: uriOf('wrong') }]);
  });

  it('can be waited for in vain', async () => {
    const editor = await workspace(BENCH);
    expect(await editor.cancel()).toMatchObject({ code: -32800 });
    await editor.ask();
    expect(await editor.cancel()).toMatchObject({ code: -32800 });
    // Who asks anew ends what was asked before.
    const first = editor.ask();
    const second = editor.ask();
    await first;
    expect(await isSettled(second, editor)).toBe(false);
    editor.files.delete(uriOf('wrong'));
    editor.changed([uriOf('wrong')]);
    await second;
    expect(editor.shown.get(uriOf('wrong'))).toEqual([]);
    expect(await editor.client.end()).toBe(0);
  });

  it('come in pieces, a thousand of them, a few read at once, while an open one is answered', async () => {
    const many = Object.fromEntries(
      Array.from({ length: 1000 }, (_, at) => [`note-${at}`, at % 2 === 0 ? WRONG_NOTE : RIGHT_NOTE]),
    );
    const editor = await workspace(many);
    editor.client.open('untitled:open', WRONG_NOTE);
    const asked = editor.ask(true);
    expect(await editor.client.pulled('untitled:open')).toMatchObject({ items: [{ code: 'wrong-value' }] });
    expect(editor.reads.length).toBeLessThan(1000);
    await asked;
    expect(editor.reads).toHaveLength(1000);
    expect(editor.most()).toBeLessThanOrEqual(4);
    expect(editor.shown.size).toBe(500);
    expect(editor.pieces.length).toBeGreaterThan(10);
    expect(Math.max(...editor.pieces.map(piece => piece.length))).toBeLessThanOrEqual(50);
  });

  it('are none where the editor does not hand them over, or waits for findings', async () => {
    const plain = await lspClient();
    expect(plain.initialized.capabilities.diagnosticProvider).toMatchObject({ workspaceDiagnostics: false });
    const waiting = await lspClient(WAITING, { initializationOptions: { notes: true } });
    expect(waiting.initialized.capabilities.diagnosticProvider).toBeUndefined();
    const failing = await lspClient(MODERN, { initializationOptions: { notes: true } });
    const asked = failing.request('workspace/diagnostic', { previousResultIds: [] });
    await failing.pulled('untitled:nothing');
    expect(await failing.end()).toBe(0);
    await expect(Promise.race([asked, Promise.reject(new Error('held'))])).rejects.toThrow('held');
  });
});
