import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Diagnostic, DocumentDiagnosticReport } from 'vscode-languageserver';
import { leastwise } from '../support/command.ts';
import { lspClient, WAITING } from '../support/lsp-client.ts';
import { RIGHT_NOTE, WAIVING_NOTE, WARNING_NOTE, WRONG_NOTE } from '../support/workshop-notes.ts';

const root = new URL('../../', import.meta.url);
const NOTE = 'untitled:axle.md';
/** Lines count from 0 in the protocol. */
const LINE_OF_THE_SLIP = 14;

function items(report: DocumentDiagnosticReport): readonly Diagnostic[] {
  if (report.kind !== 'full') throw new Error('not a full report');
  return report.items;
}

/** Where, which rule, what: in the words of the protocol, lines and characters from 0. */
function told({ range, code, severity, message, data }: Diagnostic): object {
  return { ...range, code, severity, message, slip: (data as { slip: string | null }).slip };
}

interface JsonFinding {
  readonly rule: string;
  readonly severity: string;
  readonly message: string;
  readonly slip: string | null;
  readonly line: number;
  readonly column: number;
  readonly endLine: number;
  readonly endColumn: number;
}

function toldByTheCommand(finding: JsonFinding): object {
  return {
    start: { line: finding.line - 1, character: finding.column - 1 },
    end: { line: finding.endLine - 1, character: finding.endColumn - 1 },
    code: finding.rule,
    severity: finding.severity === 'error' ? 1 : 2,
    message: finding.message,
    slip: finding.slip,
  };
}

describe('the findings of an open note', () => {
  it('are those of the command, for every note of the project', async () => {
    const folders = ['examples', 'examples/careless', 'tests/rules', 'tests/slips', 'tests/natural-typing'];
    const paths = folders.flatMap(folder =>
      readdirSync(new URL(folder, root))
        .filter(name => name.endsWith('.md'))
        .map(name => `${folder}/${name}`),
    );
    const run = leastwise(['check', ...paths, '--format', 'json'], { cwd: root.pathname });
    const { notes } = JSON.parse(run.stdout) as { notes: { path: string; findings: JsonFinding[] }[] };
    expect(notes.map(({ path }) => path).sort()).toEqual([...paths].sort());
    const client = await lspClient();
    let findings = 0;
    for (const { path, findings: expected } of notes) {
      const uri = new URL(path, root).href;
      client.open(uri, readFileSync(new URL(path, root), 'utf8').replace(/^\ufeff/, ''));
      const found = items(await client.pulled(uri));
      expect(found.map(told), path).toEqual(expected.map(toldByTheCommand));
      findings += found.length;
      client.close(uri);
    }
    expect(findings).toBeGreaterThan(200);
    expect(client.log).toEqual([]);
  });

  it('are the same whether they are asked for or sent', async () => {
    const asking = await lspClient();
    const waiting = await lspClient(WAITING);
    expect(asking.initialized.capabilities.diagnosticProvider).toBeDefined();
    expect(waiting.initialized.capabilities.diagnosticProvider).toBeUndefined();
    for (const [at, text] of [WRONG_NOTE, WARNING_NOTE, WAIVING_NOTE, RIGHT_NOTE].entries()) {
      const uri = `untitled:note-${at}`;
      asking.open(uri, text);
      waiting.open(uri, text);
      expect(await waiting.pushed(uri)).toEqual(items(await asking.pulled(uri)));
    }
  });

  it('follow the text, and are cleared when the note is closed', async () => {
    const client = await lspClient(WAITING);
    client.open(NOTE, WRONG_NOTE);
    const [finding] = await client.pushed(NOTE);
    expect(finding).toMatchObject({ code: 'wrong-value', source: 'leastwise', severity: 1 });
    expect(finding?.range.start.line).toBe(LINE_OF_THE_SLIP);
    client.change(NOTE, 2, [{ range: finding!.range, text: '2.484 cm' }]);
    expect(await client.pushed(NOTE, ({ version }) => version === 2)).toEqual([]);
    client.change(NOTE, 3, [{ text: WRONG_NOTE }]);
    expect(await client.pushed(NOTE, ({ version }) => version === 3)).toEqual([finding]);
    client.close(NOTE);
    expect(await client.pushed(NOTE, ({ version }) => version === undefined)).toEqual([]);
  });

  it('are sent once for a text, however often it is typed at', async () => {
    const client = await lspClient(WAITING);
    client.open(NOTE, RIGHT_NOTE);
    await client.pushed(NOTE);
    const end = { line: 0, character: 0 };
    for (let version = 2; version < 40; version++)
      client.change(NOTE, version, [{ range: { start: end, end }, text: version === 39 ? '#' : 'x' }]);
    await client.pushed(NOTE, ({ version }) => version === 39);
    expect(client.pushes(NOTE)).toBeLessThan(39);
  });

  it('are not told again while nothing changes', async () => {
    const client = await lspClient();
    client.open(NOTE, WRONG_NOTE);
    const first = await client.pulled(NOTE);
    expect(await client.pulled(NOTE, first.resultId)).toEqual({
      kind: 'unchanged',
      resultId: first.resultId,
    });
    client.change(NOTE, 2, [{ text: RIGHT_NOTE }]);
    expect(await client.pulled(NOTE, first.resultId)).toMatchObject({ kind: 'full', items: [] });
    client.close(NOTE);
    client.open(NOTE, WRONG_NOTE);
    expect(await client.pulled(NOTE, first.resultId)).toMatchObject({ kind: 'full' });
  });

  it('stand at the same place where lines end with a carriage return, and behind letters of two units', async () => {
    const client = await lspClient();
    client.open('untitled:lf', WRONG_NOTE);
    const [plain] = items(await client.pulled('untitled:lf'));
    client.open('untitled:crlf', WRONG_NOTE.replaceAll('\n', '\r\n'));
    expect(items(await client.pulled('untitled:crlf'))).toEqual([plain]);
    const above = '𝟚𝟛 axles 🚲\n\nOn 🕰️: `least count of axle-sleeve = 0.03 mm`\n\n';
    client.open('untitled:wide', above + WRONG_NOTE);
    const [prose, block] = items(await client.pulled('untitled:wide'));
    // A clock is three UTF-16 units and a string's length counts those.
    expect(prose?.range.start).toEqual({ line: 2, character: 'On 🕰️: `least count of axle-sleeve = '.length });
    expect(block?.range.start).toEqual({
      line: plain!.range.start.line + 4,
      character: plain!.range.start.character,
    });
  });

  it('bring the root cause and the line that contradicts along, and mark what can go', async () => {
    const client = await lspClient();
    const carried = WRONG_NOTE.replace('= 2.478 cm', '= 2.488 cm');
    client.open('untitled:carried', carried);
    const following = items(await client.pulled('untitled:carried')).find(
      ({ code }) => code === 'carried-forward',
    );
    expect(following?.relatedInformation?.[0]).toMatchObject({
      location: { uri: 'untitled:carried', range: { start: { line: LINE_OF_THE_SLIP } } },
    });
    client.open(
      'untitled:twice',
      RIGHT_NOTE.replace('coinciding', 'main scale reading: 2.40 cm\ncoinciding'),
    );
    const twice = items(await client.pulled('untitled:twice')).find(({ code }) => code === 'duplicate-name');
    expect(twice?.relatedInformation).toHaveLength(1);
    client.open(
      'untitled:waived',
      RIGHT_NOTE.replace('least count', 'waive: wrong-value, misprint\nleast count'),
    );
    expect(items(await client.pulled('untitled:waived'))).toMatchObject([
      { code: 'unused-waiver', tags: [1] },
    ]);
  });

  it('are none for what is no note', async () => {
    const client = await lspClient();
    client.open('untitled:plain.txt', WRONG_NOTE, 'plaintext');
    expect(await client.pulled('untitled:plain.txt')).toEqual({ kind: 'full', items: [] });
    client.open('untitled:empty', '');
    expect(items(await client.pulled('untitled:empty'))).toEqual([]);
    expect(await client.pulled('untitled:nowhere')).toEqual({ kind: 'full', items: [] });
  });
});
