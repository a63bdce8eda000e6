import { describe, expect, it } from 'vitest';
import { countsOf } from '../../server/src/checks/counts.ts';
import type { CheckedNote } from '../../server/src/checks/finding.ts';
import { jsonReporter } from '../../server/src/cli/reporters/json.ts';
import { EMPTY_SUMMARY, withCounts } from '../../server/src/cli/summary.ts';
import { RULE_NAMES } from '../../server/src/language/rule-names.ts';
import { folderOf, leastwise } from '../support/command.ts';
import { aFinding } from '../support/fake-check.ts';
import { PLAIN_NOTE, RIGHT_NOTE, WAIVING_NOTE, WRONG_NOTE } from '../support/workshop-notes.ts';

/** The document of a run, as text and as data. */
function documentOf(files: Readonly<Record<string, string>>, ...words: readonly string[]) {
  const run = leastwise(['check', '.', '--format', 'json', ...words], { cwd: folderOf(files) });
  expect(run.stderr).toBe('');
  return { text: run.stdout, document: JSON.parse(run.stdout), status: run.status };
}

const SUMMARY_KEYS = ['notes', 'blocks', 'claims', 'errors', 'warnings'];
const QUANTITY_KEYS = ['term', 'name', 'row', 'line', 'value', 'unit', 'exact', 'shown', 'source'];
const PLACE_KEYS = ['line', 'column', 'endLine', 'endColumn'];
const FINDING_KEYS = [
  ...['rule', 'severity', 'message', 'block', 'term', 'row', ...PLACE_KEYS],
  ...['stated', 'computed', 'slip', 'cause', 'fixes'],
];

/** Every key of the document in its place, with a value of its kind. */
function expectShape(document: unknown): void {
  const whole = document as Record<string, unknown>;
  expect(Object.keys(whole)).toEqual(['version', 'notes', 'summary']);
  expect(whole.version).toBe(1);
  expect(Object.keys(whole.summary as object)).toEqual(SUMMARY_KEYS);
  for (const count of Object.values(whole.summary as object)) expect(count).toBeTypeOf('number');
  for (const note of whole.notes as Record<string, unknown>[]) {
    expect(Object.keys(note)).toEqual(['path', 'blocks', 'findings']);
    expect(note.path).toBeTypeOf('string');
    for (const block of note.blocks as Record<string, unknown>[]) expectBlockShape(block);
    for (const finding of note.findings as Record<string, unknown>[]) expectFindingShape(finding);
  }
}

function expectBlockShape(block: Record<string, unknown>): void {
  expect(Object.keys(block)).toEqual(['name', 'line', 'quantities']);
  expect(block.line).toBeGreaterThanOrEqual(1);
  for (const quantity of block.quantities as Record<string, unknown>[]) {
    expect(Object.keys(quantity)).toEqual(QUANTITY_KEYS);
    expect(quantity.line).toBeGreaterThanOrEqual(block.line as number);
    expect(quantity.value).toBeTypeOf('string');
    expect(quantity.shown).toBeTypeOf('string');
    expect(quantity.exact).toBeTypeOf('boolean');
    expect(['computed', 'given', 'observed']).toContain(quantity.source);
    for (const key of ['term', 'name', 'unit']) expectTextOrNull(quantity[key]);
    expect(quantity.row === null || ['number', 'string'].includes(typeof quantity.row)).toBe(true);
    expect(quantity.term !== null || quantity.name !== null).toBe(true);
  }
}

function expectFindingShape(finding: Record<string, unknown>): void {
  expect(Object.keys(finding)).toEqual(FINDING_KEYS);
  expect(RULE_NAMES).toContain(finding.rule);
  expect(['error', 'warning']).toContain(finding.severity);
  expect(finding.message).toBeTypeOf('string');
  expectPlace(finding);
  for (const key of ['block', 'term', 'stated', 'computed', 'slip']) expectTextOrNull(finding[key]);
  expect(finding.cause === null || typeof finding.cause === 'number').toBe(true);
  for (const fix of finding.fixes as Record<string, unknown>[]) {
    expect(Object.keys(fix)).toEqual(['title', 'edits']);
    expect(fix.title).toBeTypeOf('string');
    for (const edit of fix.edits as Record<string, unknown>[]) {
      expect(Object.keys(edit)).toEqual([...PLACE_KEYS, 'newText']);
      expectPlace(edit);
      expect(edit.newText).toBeTypeOf('string');
    }
  }
}

function expectPlace(facts: Record<string, unknown>): void {
  const [line, column, endLine, endColumn] = PLACE_KEYS.map(key => facts[key] as number) as [
    number,
    number,
    number,
    number,
  ];
  expect(line).toBeGreaterThanOrEqual(1);
  expect(column).toBeGreaterThanOrEqual(1);
  expect(endLine > line || (endLine === line && endColumn >= column)).toBe(true);
}

function expectTextOrNull(value: unknown): void {
  expect(value === null || typeof value === 'string').toBe(true);
}

describe('the document for programs', () => {
  it('has every key in its place', () => {
    const { document, status } = documentOf({ 'a.md': WRONG_NOTE, 'b/c.md': RIGHT_NOTE, 'd.md': PLAIN_NOTE });
    expect(status).toBe(1);
    expectShape(document);
    expect(document.notes.map((note: { path: string }) => note.path)).toEqual(['a.md', 'b/c.md', 'd.md']);
  });

  it('tells the finding of the design: line 15, columns 46 to 54', () => {
    const { document } = documentOf({ 'a.md': WRONG_NOTE });
    const line = WRONG_NOTE.split('\n')[14] ?? '';
    expect(document.notes[0].findings).toMatchObject([
      {
        rule: 'wrong-value',
        severity: 'error',
        block: 'axle-sleeve',
        term: 'observed reading',
        row: null,
        line: 15,
        column: line.indexOf('2.494') + 1,
        endLine: 15,
        endColumn: line.length + 1,
        stated: '2.494 cm',
        computed: '2.484 cm',
      },
    ]);
    expect(document.summary).toMatchObject({ notes: 1, blocks: 1, errors: 1 });
  });

  it('counts the claims of blocks, and those of the prose that are checked', () => {
    const block = '```measurement ball\nm: 3.12 g\nv: 0.40 cm^3\ndensity = m/v = 7.8 g/cm^3\n```\n';
    const prose =
      '\nIt has `density of ball = m / v = 7.8 g/cm^3`, or `density of ball = 7.8 g/cm^3`; `density of ball = ?` asks only, and `density of lamp = 2 g/cm^3` is of no block.\n';
    const { document } = documentOf({ 'a.md': `${block}${prose}`, 'b.md': `${prose}\n${block}\n${block}` });
    // One in the block and two in the prose; then one in each of two blocks, of which the prose means the first.
    expect(document.summary).toMatchObject({ notes: 2, blocks: 3, claims: 3 + 4 });
  });

  it('is the same for the same notes', () => {
    const files = { 'a.md': WRONG_NOTE, 'b.md': RIGHT_NOTE };
    expect(documentOf(files).text).toBe(documentOf(files).text);
  });

  it('is whole where nothing is found, and where nothing can be read', () => {
    const { document, status } = documentOf({ 'a.md': PLAIN_NOTE });
    expect(status).toBe(0);
    expect(document).toEqual({
      version: 1,
      notes: [{ path: 'a.md', blocks: [], findings: [] }],
      summary: { notes: 1, blocks: 0, claims: 0, errors: 0, warnings: 0 },
    });
    const run = leastwise(['check', 'gone.md', '--format', 'json']);
    expect(run.status).toBe(2);
    expect(JSON.parse(run.stdout)).toMatchObject({ notes: [], summary: { notes: 0 } });
  });

  it('leaves waived findings out, and lists them with their reasons for --waived', () => {
    const files = { 'a.md': WAIVING_NOTE };
    expect(documentOf(files)).toMatchObject({ status: 0, document: { notes: [{ findings: [] }] } });
    const { document, status } = documentOf(files, '--waived');
    expect(status).toBe(0);
    expect(Object.keys(document.notes[0].findings[0])).toEqual([...FINDING_KEYS, 'waived']);
    expect(document.notes[0].findings[0].waived).toBe('printed this way in the exercise sheet');
    expect(document.summary).toMatchObject({ errors: 0, waived: 1 });
  });
});

describe('the reporter for programs', () => {
  const text = '\ufeff```measurement\r\nR = 2.5 cm\r\nS = 1\r\n```';
  const span = { start: text.indexOf('2.5 cm'), end: text.indexOf('2.5 cm') + 6 };
  const note: CheckedNote = {
    blocks: [
      {
        name: null,
        span: { start: 1, end: text.length },
        claims: 1,
        quantities: [
          {
            term: 'pitch',
            name: null,
            row: null,
            span: null,
            value: '1/2',
            unit: 'mm',
            exact: true,
            shown: '0.5 mm',
            source: 'computed',
          },
          {
            term: null,
            name: 'R',
            row: 'dish',
            span,
            value: '5/2',
            unit: 'cm',
            exact: true,
            shown: '2.5 cm',
            source: 'given',
          },
        ],
      },
    ],
    findings: [
      aFinding({
        span,
        message: 'a \x9b and a \u202e, "quoted"',
        row: 2,
        cause: { start: text.indexOf('S ='), end: text.length },
        fixes: [{ title: 'write', sure: true, edits: [{ span, newText: 'x\ny' }] }],
      }),
      aFinding({ waived: 'as printed' }),
    ],
  };
  const report = (waived: boolean) => {
    const reporter = jsonReporter({ waived, quiet: false });
    const summary = withCounts(EMPTY_SUMMARY, countsOf(note));
    return (
      reporter.opening + reporter.add(String(reporter.note('a.md', text, note))) + reporter.closing(summary)
    );
  };

  it('counts lines and columns from 1, with a byte-order mark and CRLF left out', () => {
    const document = JSON.parse(report(false));
    expectShape(document);
    expect(document.notes[0].blocks[0]).toMatchObject({ name: null, line: 1 });
    expect(document.notes[0].blocks[0].quantities.map((each: { line: number }) => each.line)).toEqual([1, 2]);
    expect(document.notes[0].findings).toHaveLength(1);
    expect(document.notes[0].findings[0]).toMatchObject({
      ...{ line: 2, column: 5, endLine: 2, endColumn: 11, cause: 3, row: 2 },
      fixes: [
        { title: 'write', edits: [{ line: 2, column: 5, endLine: 2, endColumn: 11, newText: 'x\ny' }] },
      ],
    });
  });

  it('writes no control and no mark of direction as it is, and loses none', () => {
    expect(report(false)).not.toMatch(/[\x00-\x09\x0b-\x1f\x7f-\x9f\u202e]/);
    expect(JSON.parse(report(false)).notes[0].findings[0].message).toBe('a \x9b and a \u202e, "quoted"');
  });

  it('streams: every note is a line of its own, parted by commas', () => {
    const reporter = jsonReporter({ waived: false, quiet: false });
    const lines = ['a.md', 'b.md'].map(path => reporter.add(String(reporter.note(path, text, note))));
    expect(lines[0]).toMatch(/^\n\{"path":"a.md"/);
    expect(lines[1]).toMatch(/^,\n\{"path":"b.md"/);
  });

  it('keeps the summary to what counts', () => {
    expect(JSON.parse(report(false)).summary).toEqual({
      notes: 1,
      blocks: 1,
      claims: 1,
      errors: 1,
      warnings: 0,
    });
    expect(JSON.parse(report(true)).summary).toMatchObject({ errors: 1, waived: 1 });
  });
});
