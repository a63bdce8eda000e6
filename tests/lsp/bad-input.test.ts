import { once } from 'node:events';
import { describe, expect, it } from 'vitest';
import { leastwise } from '../support/command.ts';
import { lspClient, WAITING } from '../support/lsp-client.ts';
import { WRONG_NOTE } from '../support/workshop-notes.ts';

const NOTE = 'untitled:note';
const FAR = { line: 1_000_000, character: 1_000_000 };

describe('the server', () => {
  it('says what it can do', async () => {
    const { initialized } = await lspClient();
    expect(initialized.serverInfo?.name).toBe('leastwise');
    expect(initialized.capabilities).toMatchObject({
      positionEncoding: 'utf-16',
      textDocumentSync: { openClose: true, change: 2 },
      diagnosticProvider: { interFileDependencies: false, workspaceDiagnostics: false },
      hoverProvider: true,
      codeActionProvider: { resolveProvider: true },
    });
    const kinds = (initialized.capabilities.codeActionProvider as { codeActionKinds: string[] })
      .codeActionKinds;
    expect(kinds).toContain('source.fixAll.leastwise');
  });

  it('ends with 0 after a goodbye, and with 1 when it is left without one', async () => {
    expect(await (await lspClient()).end()).toBe(0);
    const left = await lspClient();
    const exit = once(left.process, 'exit');
    left.process.stdin?.end();
    expect((await exit)[0]).toBe(1);
  });

  it('says what it is for when a person starts it', () => {
    const run = leastwise(['serve']);
    expect(run).toMatchObject({ status: 2, stdout: '' });
    expect(run.stderr).toMatch(/^leastwise: serve talks to an editor[^\n]*--stdio[^\n]*\n$/);
  });

  it('answers with nothing where there is nothing: places outside the note, notes that are not open', async () => {
    const client = await lspClient();
    client.open(NOTE, WRONG_NOTE);
    const beyond = { start: FAR, end: FAR };
    expect(await client.hover(NOTE, FAR)).toBeNull();
    expect(await client.codeActions(NOTE, beyond, { only: ['quickfix'] })).toEqual([]);
    expect(await client.hover('untitled:nowhere', FAR)).toBeNull();
    expect(await client.codeActions('untitled:nowhere', beyond)).toEqual([]);
    client.change('untitled:nowhere', 2, [{ text: 'x' }]);
    client.close('untitled:nowhere');
    expect(await client.pulled(NOTE)).toMatchObject({ kind: 'full', items: [{ code: 'wrong-value' }] });
  });

  it('lives on after requests that are broken, and says so in the log only', async () => {
    const client = await lspClient();
    client.open(NOTE, WRONG_NOTE);
    const broken = [null, {}, { textDocument: null }, { textDocument: { uri: NOTE }, position: null }];
    for (const method of ['textDocument/hover', 'textDocument/codeAction', 'textDocument/diagnostic'])
      for (const params of broken) await client.request(method, params).catch(() => null);
    await client.request('codeAction/resolve', { title: 'none of ours' }).catch(() => null);
    await client
      .request('codeAction/resolve', { title: 'x', data: { uri: NOTE, version: 1 } })
      .catch(() => null);
    await client.request('leastwise/nothing', {}).catch(() => null);
    await client.connection.sendNotification('textDocument/didChange', { textDocument: { uri: NOTE } });
    await client.connection.sendNotification('leastwise/nothing', {});
    client.process.stdin?.write('Content-Length: 9\r\n\r\n{"broken"');
    expect(await client.pulled(NOTE)).toMatchObject({ kind: 'full', items: [{ code: 'wrong-value' }] });
    expect(await client.end()).toBe(0);
  });

  it('drops what is no longer wanted', async () => {
    const client = await lspClient();
    client.open(NOTE, WRONG_NOTE);
    const { CancellationTokenSource } = await import('vscode-languageserver/node');
    const source = new CancellationTokenSource();
    const params = { textDocument: { uri: NOTE }, position: { line: 14, character: 3 } };
    const asked = client.connection.sendRequest('textDocument/hover', params, source.token);
    source.cancel();
    // It may have been answered before the word came.
    await asked.catch(error => expect(error).toMatchObject({ code: -32800 }));
    expect(await client.pulled(NOTE)).toMatchObject({ items: [{ code: 'wrong-value' }] });
  });

  it('keeps nothing of the notes that were closed', async () => {
    const client = await lspClient(WAITING);
    for (let at = 0; at < 200; at++) {
      client.open(`untitled:${at}`, WRONG_NOTE);
      client.close(`untitled:${at}`);
    }
    await client.pushed('untitled:199', ({ diagnostics }) => diagnostics.length === 0);
    for (let at = 0; at < 200; at++) expect(client.pushes(`untitled:${at}`)).toBe(2);
    expect(await client.codeActions('untitled:3', { start: FAR, end: FAR })).toEqual([]);
  });
});
