import { rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { describe, expect, it } from 'vitest';
import type { Diagnostic, DocumentDiagnosticReport, RegistrationParams } from 'vscode-languageserver';
import { CONFIG_NAME } from '../../server/src/config/config-file.ts';
import { folderOf, leastwise } from '../support/command.ts';
import { type LspClient, lspClient, MODERN, WAITING } from '../support/lsp-client.ts';

const NOTE = `\`\`\`measurement spoke-gauge
main scale: 1 mm = 1 MSD
vernier scale: 10 VSD = 9 MSD
main scale reading: 24 mm
coinciding division: 7
observed reading = 24.8 mm
mean of T = 6.3 s
T: 6.2 s, 6.3 s
\`\`\`
`;
const NOTE_URI = 'file:///bench/set/note.md';
const CONFIG_URI = 'file:///bench/leastwise.config.json';

/** An editor that serves a configuration file and settings of its own; both can be changed. */
async function editor(
  served: { config: string | null; settings: object | null },
  capabilities = { ...MODERN, workspace: { ...MODERN.workspace, configuration: true } },
): Promise<LspClient> {
  return lspClient(capabilities, {
    initializationOptions: { configFiles: true },
    answers: {
      'leastwise/config': () => served.config && { uri: CONFIG_URI, text: served.config },
      'workspace/configuration': ({ items }: { items: readonly unknown[] }) =>
        items.map(() => served.settings),
    },
  });
}

async function findings(client: LspClient, uri = NOTE_URI): Promise<readonly string[]> {
  const report = (await client.pulled(uri)) as Extract<DocumentDiagnosticReport, { kind: 'full' }>;
  return report.items.map(said);
}

function said({ severity, code, message }: Diagnostic): string {
  return `${severity} ${code}: ${message}`;
}

describe('the configuration in an editor', () => {
  it('says the same as the command does', async () => {
    const configs = [
      '{}',
      '{ "rules": { "wrong-value": "warning" } }',
      '{ "rules": { "wrong-value": "off" } }',
      '{ "rounding": "to-even" }',
      '{ "student": true, "rounding": "to-even" }',
    ];
    const served = { config: '{}', settings: null };
    const client = await editor(served);
    client.open(NOTE_URI, NOTE);
    const all = new Set<string>();
    for (const config of configs) {
      served.config = config;
      await client.connection.sendNotification('leastwise/configChanged', {});
      const cwd = folderOf({ 'leastwise.config.json': config, 'set/note.md': NOTE });
      const report = JSON.parse(leastwise(['check', '--format', 'json', 'set'], { cwd }).stdout) as {
        notes: [{ findings: { severity: string; rule: string; message: string }[] }];
      };
      const expected = report.notes[0].findings.map(
        ({ severity, rule, message }) => `${severity === 'error' ? 1 : 2} ${rule}: ${message}`,
      );
      expect(await findings(client), config).toEqual(expected);
      all.add(expected.join());
    }
    expect(all.size).toBe(configs.length);
  });

  it('comes before the settings of the editor, which hold where there is none', async () => {
    const served: { config: string | null; settings: object } = {
      config: null,
      settings: { student: true, rules: { 'wrong-value': 'warning' }, rounding: 'up' },
    };
    const client = await editor(served);
    client.open(NOTE_URI, NOTE);
    expect((await findings(client))[0]).toMatch(/^2 wrong-value: .* look again at /);
    served.config = '{ "student": false }';
    await client.connection.sendNotification('leastwise/configChanged', {});
    expect((await findings(client))[0]).toMatch(/^2 wrong-value: .* 24\.7 mm is right/);
    served.settings = { student: true, rules: {}, rounding: 'either' };
    await client.connection.sendNotification('workspace/didChangeConfiguration', { settings: null });
    expect((await findings(client))[0]).toMatch(/^1 wrong-value: .* 24\.7 mm is right/);
  });

  it('keeps from students what they are to work out', async () => {
    const client = await editor({ config: '{ "student": true }', settings: null });
    const text = NOTE.replace('24.8 mm', '?');
    client.open(NOTE_URI, text);
    const line = text.split('\n').findIndex(each => each.startsWith('observed reading'));
    const range = { start: { line, character: 0 }, end: { line, character: 20 } };
    for (let character = 0; character < 20; character++)
      expect(JSON.stringify(await client.hover(NOTE_URI, { line, character }))).not.toMatch(/24\.7/);
    const actions = await client.codeActions(NOTE_URI, range);
    const resolved = await Promise.all(actions.map(action => client.resolve(action)));
    expect(JSON.stringify(resolved)).not.toMatch(/24\.7|working|steps/);
  });

  it('that is broken is underlined in its file until it is mended, and the rest holds', async () => {
    const served = { config: '{\n  "studnet": true,\n  "student": true\n}', settings: null };
    const client = await editor(served);
    client.open(NOTE_URI, NOTE);
    expect((await findings(client))[0]).toMatch(/look again at /);
    const [trouble] = await client.pushed(CONFIG_URI);
    expect(trouble).toMatchObject({
      range: { start: { line: 1, character: 2 }, end: { line: 1, character: 11 } },
      severity: 1,
      source: 'leastwise',
      message: 'there is no setting studnet; student is likely meant',
    });
    client.close(NOTE_URI);
    served.config = '{}';
    await client.connection.sendNotification('leastwise/configChanged', {});
    expect(await client.pushed(CONFIG_URI, ({ diagnostics }) => diagnostics.length === 0)).toEqual([]);
  });

  it('that breaks is underlined though nobody asks for findings just then', async () => {
    const served = { config: '{ "student": true }', settings: null };
    const client = await editor(served);
    client.open(NOTE_URI, NOTE);
    await findings(client);
    served.config = '{ "student": true, "roundign": "to-even" }';
    await client.connection.sendNotification('leastwise/configChanged', {});
    const [trouble] = await client.pushed(CONFIG_URI);
    expect(trouble?.message).toMatch(/rounding is likely meant/);
  });

  it('reaches an editor that waits for findings', async () => {
    const served = { config: '{ "student": true }', settings: null };
    const client = await editor(served, {
      ...WAITING,
      workspace: { ...MODERN.workspace, configuration: false },
    });
    client.open(NOTE_URI, NOTE);
    expect(said((await client.pushed(NOTE_URI))[0]!)).toMatch(/look again at /);
    served.config = '{ "rules": { "wrong-value": "off" } }';
    await client.connection.sendNotification('leastwise/configChanged', {});
    const after = await client.pushed(NOTE_URI, ({ diagnostics }) => diagnostics.length === 0);
    expect(after).toEqual([]);
    // Nothing was ever told that students may not see.
    expect(client.pushes(NOTE_URI)).toBe(2);
  });

  it('may also be sent by an editor that is not asked', async () => {
    const client = await lspClient();
    client.open(NOTE_URI, NOTE);
    expect((await findings(client))[0]).toMatch(/24\.7 mm is right/);
    await client.connection.sendNotification('workspace/didChangeConfiguration', {
      settings: { leastwise: { student: true } },
    });
    expect((await findings(client))[0]).toMatch(/look again at /);
  });

  it('is asked for once a folder, and a failing answer leaves the usual settings', async () => {
    const asked: string[] = [];
    const client = await lspClient(MODERN, {
      initializationOptions: { configFiles: true },
      answers: {
        'leastwise/config': ({ uri }: { uri: string }) => {
          asked.push(uri);
          throw new Error('the folder cannot be read');
        },
      },
    });
    const uris = ['file:///bench/a/1.md', 'file:///bench/a/2.md', 'file:///bench/b/1.md', 'untitled:One'];
    for (const uri of uris) client.open(uri, NOTE);
    for (const uri of uris) expect((await findings(client, uri))[0]).toMatch(/24\.7 mm is right/);
    expect(asked.sort()).toEqual(['file:///bench/a/1.md', 'file:///bench/b/1.md', 'untitled:One']);
  });
});

describe('the configuration on the disk', () => {
  const STUDENTS = '{ "student": true, "rules": { "undetermined": "off" }, "wy": "scales" }';

  it('holds in an editor that hands none over, as long as it says so', async () => {
    const folder = folderOf({ 'a b#1%/set/note.md': NOTE });
    const config = join(folder, 'a b#1%', CONFIG_NAME);
    const uri = pathToFileURL(join(folder, 'a b#1%/set/note.md')).href;
    const client = await lspClient();
    client.open(uri, NOTE);
    expect((await findings(client, uri))[0]).toMatch(/24\.7 mm is right/);
    writeFileSync(config, STUDENTS);
    expect((await findings(client, uri))[0]).toMatch(/look again at /);
    const [trouble] = await client.pushed(pathToFileURL(config).href);
    expect(trouble?.message).toMatch(/way is likely meant/);
    rmSync(config);
    expect((await findings(client, uri))[0]).toMatch(/24\.7 mm is right/);
    expect(
      await client.pushed(pathToFileURL(config).href, ({ diagnostics }) => diagnostics.length === 0),
    ).toEqual([]);
  });

  it('is looked at again when the editor says that it has changed, in one that waits for findings', async () => {
    const folder = folderOf({ 'set/note.md': NOTE, [CONFIG_NAME]: STUDENTS });
    const uri = pathToFileURL(join(folder, 'set/note.md')).href;
    const watched: unknown[] = [];
    const client = await lspClient(
      {
        ...WAITING,
        workspace: { ...WAITING.workspace, didChangeWatchedFiles: { dynamicRegistration: true } },
      },
      {
        answers: {
          'client/registerCapability': ({ registrations }: RegistrationParams) => {
            watched.push(...registrations.map(({ registerOptions }) => registerOptions));
            return null;
          },
        },
      },
    );
    client.open(uri, NOTE);
    expect(said((await client.pushed(uri))[0]!)).toMatch(/look again at /);
    expect(watched).toEqual([{ watchers: [{ globPattern: '**/leastwise.config.json' }] }]);
    writeFileSync(join(folder, CONFIG_NAME), '{ "rules": { "wrong-value": "off" } }');
    client.notify('workspace/didChangeWatchedFiles', { changes: [] });
    expect(await client.pushed(uri, ({ diagnostics }) => diagnostics.length === 0)).toEqual([]);
  });

  it('gives way to what an editor hands over, and is told where it cannot be read', async () => {
    const folder = folderOf({ 'note.md': NOTE, [CONFIG_NAME]: STUDENTS });
    const uri = pathToFileURL(join(folder, 'note.md')).href;
    const served = await editor({ config: null, settings: null });
    served.open(uri, NOTE);
    expect((await findings(served, uri))[0]).toMatch(/24\.7 mm is right/);
    writeFileSync(join(folder, CONFIG_NAME), Buffer.from([0xff, 0xfe, 0x7b, 0x00]));
    const client = await lspClient();
    const told = new Promise<string>(settle => {
      client.connection.onNotification('window/showMessage', ({ message }: { message: string }) =>
        settle(message),
      );
    });
    client.open(uri, NOTE);
    expect((await findings(client, uri))[0]).toMatch(/24\.7 mm is right/);
    expect(await told).toMatch(/^the configuration of leastwise cannot be used: .*UTF-16/);
  });
});
