import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkNote } from '../../server/src/checks/check.ts';
import type { Finding } from '../../server/src/checks/finding.ts';
import { pathFromRoot } from '../../server/src/cli/reporters/path-from-root.ts';
import { sarifReporter } from '../../server/src/cli/reporters/sarif.ts';
import { EMPTY_SUMMARY } from '../../server/src/cli/summary.ts';
import { RULE_NAMES } from '../../server/src/language/rule-names.ts';
import { folderOf, leastwise } from '../support/command.ts';
import { aFinding } from '../support/fake-check.ts';
import { hostileText } from '../support/hostile-texts.ts';
import { validationBy } from '../support/json-schema.ts';
import { PROJECT_ROOT } from '../support/project-files.ts';
import { RIGHT_NOTE, WAIVING_NOTE, WARNING_NOTE, WRONG_NOTE } from '../support/workshop-notes.ts';

const problemsOf = validationBy('tests/cli/published-schemas/sarif-2.1.0.json', false);

interface Result {
  readonly ruleId: string;
  readonly ruleIndex: number;
  readonly level: string;
  readonly message: { readonly text: string };
  readonly locations: readonly {
    readonly physicalLocation: { readonly artifactLocation: { readonly uri: string } };
  }[];
  readonly partialFingerprints: Readonly<Record<string, string>>;
  readonly [further: string]: unknown;
}

function runOf(words: readonly string[], cwd: string, env: Record<string, string> = {}) {
  const { stdout, stderr, status } = leastwise(['check', ...words, '--format', 'sarif'], { cwd, env });
  const document = JSON.parse(stdout);
  expect(problemsOf(document)).toEqual([]);
  return { document, run: document.runs[0], results: document.runs[0].results as Result[], stderr, status };
}

describe('the report for code hosts', () => {
  it.each(['examples', 'tests/natural-typing', 'tests/rules', 'tests/slips'])(
    'is valid by the published schema for the notes in %s',
    folder => {
      const { results } = runOf([folder, '--waived'], PROJECT_ROOT);
      expect(results.length).toBeGreaterThan(10);
    },
  );

  it('is valid where nothing is found, and where there is nothing', () => {
    const { results, run, status } = runOf(['.'], folderOf({ 'a.md': RIGHT_NOTE }));
    expect(results).toEqual([]);
    expect(run.invocations).toEqual([{ toolExecutionNotifications: [], executionSuccessful: true }]);
    expect(status).toBe(0);
    expect(runOf(['gone.md'], folderOf({})).results).toEqual([]);
  });

  it('counts columns as editors do, and tells place, values, slip and fix', () => {
    const cwd = folderOf({ 'set 1/ä.md': WRONG_NOTE });
    const { run, results } = runOf(['.'], cwd);
    expect(run.columnKind).toBe('utf16CodeUnits');
    const line = WRONG_NOTE.split('\n')[14] ?? '';
    const region = {
      startLine: 15,
      startColumn: line.indexOf('2.494') + 1,
      endLine: 15,
      endColumn: line.length + 1,
    };
    expect(results).toHaveLength(1);
    expect(results[0]).toMatchObject({
      ruleId: 'wrong-value',
      ruleIndex: RULE_NAMES.indexOf('wrong-value'),
      level: 'error',
      locations: [
        {
          physicalLocation: { artifactLocation: { uri: 'set%201/%C3%A4.md' }, region },
          logicalLocations: [{ name: 'axle-sleeve' }],
        },
      ],
      properties: { block: 'axle-sleeve', stated: '2.494 cm', computed: '2.484 cm' },
    });
    const [fix] = results[0]!.fixes as { artifactChanges: { replacements: object[] }[] }[];
    expect(fix!.artifactChanges[0]!.replacements).toEqual([
      { deletedRegion: region, insertedContent: { text: '2.484 cm' } },
    ]);
  });

  it('explains every rule, with its page', () => {
    const { run } = runOf(['.'], folderOf({ 'a.md': WRONG_NOTE }));
    const { rules } = run.tool.driver;
    expect(rules.map((rule: { id: string }) => rule.id)).toEqual(RULE_NAMES);
    for (const { id, help, helpUri, defaultConfiguration } of rules) {
      expect(help.text.length, id).toBeGreaterThan(80);
      expect(help.markdown).toContain('```');
      expect(readFileSync(new URL(helpUri), 'utf8')).toContain(`# ${id}`);
      expect(['error', 'warning']).toContain(defaultConfiguration.level);
    }
  });

  it('names the slip in the message, and leads from what is carried forward to where the trouble began', () => {
    const { results } = runOf(['tests/slips/zero-correction-sign.md'], PROJECT_ROOT);
    expect(results.map(result => result.message.text).join('\n')).toContain(
      '(the slip zero-correction-sign)',
    );
    const carried = runOf(['tests/rules/carried-forward.md'], PROJECT_ROOT).results.find(
      result => result.ruleId === 'carried-forward',
    );
    expect(carried?.relatedLocations).toMatchObject([{ message: { text: 'where the trouble began' } }]);
  });

  it('has errors before warnings, each in the order of the notes', () => {
    const cwd = folderOf({
      'a.md': WARNING_NOTE,
      'b.md': WRONG_NOTE,
      'c.md': WARNING_NOTE,
      'd.md': WRONG_NOTE,
    });
    const { results } = runOf(['.'], cwd);
    const told = results.map(({ level, locations }) => [
      level,
      locations[0]?.physicalLocation.artifactLocation.uri,
    ]);
    expect(told).toEqual([
      ['error', 'b.md'],
      ['error', 'd.md'],
      ['warning', 'a.md'],
      ['warning', 'c.md'],
    ]);
  });

  it('is valid with warnings only', () => {
    expect(runOf(['.'], folderOf({ 'a.md': WARNING_NOTE })).results).toHaveLength(1);
  });

  it('tells what could not be read', () => {
    const cwd = folderOf({ 'a.md': WRONG_NOTE, 'b.md': Buffer.from([0xff, 0xfe, 0x41, 0]) });
    const { run, stderr, status } = runOf(['.', 'gone.md'], cwd);
    const [invocation] = run.invocations;
    expect(status).toBe(2);
    expect(invocation.executionSuccessful).toBe(false);
    const told = invocation.toolExecutionNotifications.map(
      (each: { message: { text: string } }) => each.message.text,
    );
    expect(told).toEqual([
      'b.md is written in UTF-16 (little-endian), which is not read here: save it as UTF-8',
      'there is no file or folder gone.md',
    ]);
    for (const sentence of told) expect(stderr).toContain(sentence);
  });

  it('knows a finding again when lines come and go above it, and two that are alike apart', () => {
    const prints = (note: string) =>
      runOf(['.'], folderOf({ 'a.md': note })).results.map(
        result => result.partialFingerprints['findingHash/v1'],
      );
    const twice = WRONG_NOTE + WRONG_NOTE.replace('axle-sleeve', 'other-sleeve');
    expect(prints(`# One more heading\n\n${twice}`)).toEqual(prints(twice));
    expect(new Set(prints(twice)).size).toBe(2);
    expect(prints(WRONG_NOTE.replace('2.494', '2.495'))).not.toEqual(prints(WRONG_NOTE));
  });

  it('lists waived findings as suppressed, with their reasons, and says of the others that they are not', () => {
    const cwd = folderOf({ 'a.md': WAIVING_NOTE, 'b.md': WRONG_NOTE });
    expect(runOf(['.'], cwd).results.map(result => result.suppressions)).toEqual([undefined]);
    const { results } = runOf(['.', '--waived'], cwd);
    expect(results.map(result => result.suppressions)).toEqual([
      [],
      [{ kind: 'inSource', status: 'accepted', justification: 'printed this way in the exercise sheet' }],
    ]);
  });

  it('counts paths from the root of a checkout, where the host tells it', () => {
    const cwd = folderOf({ 'bank/a.md': WRONG_NOTE });
    const uris = (env: Record<string, string>) =>
      runOf(['.'], join(cwd, 'bank'), env).results.map(
        result => result.locations[0]?.physicalLocation.artifactLocation.uri,
      );
    expect(uris({ GITHUB_WORKSPACE: cwd })).toEqual(['bank/a.md']);
    expect(uris({ GITHUB_WORKSPACE: join(cwd, 'bank') })).toEqual(['a.md']);
    expect(uris({ GITHUB_WORKSPACE: join(cwd, 'elsewhere') })).toEqual(['a.md']);
    expect(uris({ GITHUB_WORKSPACE: '' })).toEqual(['a.md']);
  });

  it.each([
    ['a.md', 'bank/a.md', 'a.md'],
    ['./set/../a.md', 'bank/a.md', 'a.md'],
    ['../else/a.md', 'else/a.md', '../else/a.md'],
    ['../../a.md', '/srv/a.md', '../../a.md'],
    ['/srv/work/else/./a.md', 'else/a.md', '/srv/work/else/a.md'],
    ['/srv/works/a.md', '/srv/works/a.md', '/srv/works/a.md'],
    ['C:/bank/a.md', 'C:/bank/a.md', 'C:/bank/a.md'],
  ])('counts %s as %s, and without a checkout as %s', (path, inCheckout, plain) => {
    expect(pathFromRoot(path, { root: '/srv/work', here: '/srv/work/bank' })).toBe(inCheckout);
    expect(pathFromRoot(path, { root: '/srv/work/', here: '/srv/work/bank' })).toBe(inCheckout);
    expect(pathFromRoot(path, null)).toBe(plain);
  });
});

describe('the reporter for code hosts', () => {
  const report = (findings: readonly Finding[], path = 'a.md', text = 'some words of a note\n') => {
    const reporter = sarifReporter({ waived: true, quiet: false, checkout: null });
    const piece = String(reporter.note(path, text, { blocks: [], findings }));
    const added = reporter.add(piece);
    const later = reporter.keeps!.later(piece);
    const trouble = reporter.keeps!.trouble(path, 0);
    return [
      ...[reporter.opening, added, reporter.keeps!.beforeLater(), later],
      ...[reporter.keeps!.beforeTroubles(), trouble, reporter.closing(EMPTY_SUMMARY)],
    ].join('');
  };

  it('is valid, steers no terminal and holds no command or link, whatever a note holds', () => {
    fc.assert(
      fc.property(hostileText, hostileText, hostileText, (message, other, path) => {
        const text = report(
          [
            aFinding({
              ...{ message, block: other, term: message, row: other, stated: message, computed: other },
              related: [{ span: { start: 0, end: 2 }, message: other }],
              fixes: [
                { title: message, sure: true, edits: [{ span: { start: 1, end: 1 }, newText: other }] },
              ],
            }),
            aFinding({ severity: 'warning', message: other, waived: message }),
          ],
          path,
          message,
        );
        expect(problemsOf(JSON.parse(text))).toEqual([]);
        expect(text).not.toMatch(/[\x00-\x09\x0b-\x1f\x7f-\x9f\u202e]|^\s*::|##(?:vso|teamcity)?\[/m);
        expect(JSON.parse(text).runs[0].results[0].message.text).not.toMatch(/(?<!\\)\]\(/);
      }),
      { numRuns: 150 },
    );
  });

  it('writes whole paths as addresses', () => {
    const uri = (path: string) =>
      JSON.parse(report([aFinding({})], path)).runs[0].results[0].locations[0].physicalLocation
        .artifactLocation.uri;
    expect(uri('/bank/a b.md')).toBe('file:///bank/a%20b.md');
    expect(uri('C:/bank/a.md')).toBe('file:///C:/bank/a.md');
    expect(uri('javascript:a.md')).toBe('javascript%3Aa.md');
    expect(uri('../a.md')).toBe('../a.md');
  });

  it('numbers findings alike in every listing', () => {
    const note = `${WARNING_NOTE}${WRONG_NOTE}`;
    const checked = checkNote(note);
    const prints = (quiet: boolean) =>
      String(sarifReporter({ waived: false, quiet, checkout: null }).note('a.md', note, checked)).match(
        /[0-9a-f]{16}:\d/g,
      );
    expect(prints(false)).toEqual(expect.arrayContaining(prints(true) ?? ['none']));
  });
});
