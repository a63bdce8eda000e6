import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { validateXML } from 'xmllint-wasm';
import { junitReporter } from '../../server/src/cli/reporters/junit.ts';
import { EMPTY_SUMMARY } from '../../server/src/cli/summary.ts';
import { folderOf, leastwise } from '../support/command.ts';
import { aFinding } from '../support/fake-check.ts';
import { hostileText } from '../support/hostile-texts.ts';
import { PROJECT_ROOT } from '../support/project-files.ts';
import { PLAIN_NOTE, RIGHT_NOTE, WAIVING_NOTE, WARNING_NOTE, WRONG_NOTE } from '../support/workshop-notes.ts';

const SCHEMA = readFileSync(join(PROJECT_ROOT, 'tests/cli/published-schemas/junit-10.xsd'), 'utf8');

/** What libxml2 says is wrong with a report, held to the schema of Jenkins' xunit plugin. */
async function problemsOf(...documents: readonly string[]): Promise<readonly string[]> {
  const xml = documents.map((contents, at) => ({ fileName: `${at}.xml`, contents }));
  const { valid, errors } = await validateXML({ xml, schema: [SCHEMA] });
  return valid ? [] : errors.map(error => error.rawMessage);
}

function reportOf(words: readonly string[], cwd: string): string {
  return leastwise(['check', ...words, '--format', 'junit'], { cwd }).stdout;
}

describe('the report for build hosts', () => {
  it.each(['examples', 'tests/natural-typing', 'tests/rules', 'tests/slips'])(
    'is valid by the schema of Jenkins for the notes in %s',
    async folder => {
      const report = reportOf([folder, '--waived'], PROJECT_ROOT);
      expect(await problemsOf(report)).toEqual([]);
      expect(report.match(/<testcase /g)?.length).toBeGreaterThan(10);
    },
  );

  it('has a suite for each note, a case for each block, and fails where there is an error', async () => {
    const cwd = folderOf({
      ...{ 'set/a.md': WRONG_NOTE, 'set/b.md': RIGHT_NOTE, 'c.md': WARNING_NOTE, 'd.md': PLAIN_NOTE },
    });
    const report = reportOf(['.'], cwd);
    expect(await problemsOf(report)).toEqual([]);
    expect(report.match(/<testsuite [^>]*>/g)).toEqual([
      '<testsuite name="c.md" tests="1" failures="0" errors="0" file="c.md">',
      '<testsuite name="d.md" tests="0" failures="0" errors="0" file="d.md">',
      '<testsuite name="set/a.md" tests="1" failures="1" errors="0" file="set/a.md">',
      '<testsuite name="set/b.md" tests="1" failures="0" errors="0" file="set/b.md">',
    ]);
    expect(report).toContain('<testcase name="axle-sleeve" classname="set/a"><failure type="wrong-value"');
    expect(report).toContain('<testcase name="axle-sleeve" classname="set/b"></testcase>');
    expect(report).toMatch(/<testcase name="bearing-ball" classname="c"><system-out>warning: line 3: /);
  });

  it('tells waived findings where they are asked for, and fails nothing for them', async () => {
    const cwd = folderOf({ 'a.md': WAIVING_NOTE });
    expect(reportOf(['.'], cwd)).not.toContain('waived');
    const report = reportOf(['.', '--waived'], cwd);
    expect(report).toContain('failures="0"');
    expect(report).toMatch(/<system-out>waived: line 7: .*because: printed this way in the exercise sheet</);
    expect(await problemsOf(report)).toEqual([]);
  });

  it('tells a note that could not be read as an error', async () => {
    const report = reportOf(['.', 'gone.md'], folderOf({ 'a.md': RIGHT_NOTE }));
    expect(await problemsOf(report)).toEqual([]);
    expect(report).toContain('<error type="not checked" message="there is no file or folder gone.md"/>');
  });

  it('names blocks apart, and has a case for what stands around them', () => {
    const findings = [aFinding({ span: { start: 6, end: 7 } }), aFinding({ span: { start: 20, end: 21 } })];
    const block = (start: number, name: string | null) => ({
      ...{ name, span: { start, end: start + 5 }, quantities: [], claims: 1 },
    });
    const blocks = [block(0, null), block(5, 'ball'), block(10, 'ball')];
    const piece = junitReporter({ waived: false, quiet: false }).note('a.md', 'x'.repeat(30), {
      blocks,
      findings,
    });
    expect(String(piece).match(/ name="[^"]*"/g)).toEqual(
      ['a.md', 'block 1', 'ball', 'ball (2)', 'around the blocks'].map(name => ` name="${name}"`),
    );
    expect(String(piece)).toContain('tests="4" failures="2"');
  });

  it('is well-formed and valid, and steers no terminal or host, whatever a note holds', async () => {
    const texts = fc.sample(fc.array(hostileText, { minLength: 4, maxLength: 4 }), {
      numRuns: 60,
      seed: 20261126,
    });
    const reports = texts.map(([message = '', path = '', block = '', waived = '']) => {
      const reporter = junitReporter({ waived: true, quiet: false });
      const note = {
        blocks: [{ name: block, span: { start: 0, end: 5 }, quantities: [], claims: 1 }],
        findings: [aFinding({ message }), aFinding({ message, waived }), aFinding({ message: block })],
      };
      const piece = String(reporter.note(path, 'some words', note));
      return (
        reporter.opening +
        reporter.add(piece) +
        reporter.keeps!.trouble(message, 0) +
        reporter.closing(EMPTY_SUMMARY)
      );
    });
    expect(await problemsOf(...reports)).toEqual([]);
    for (const report of reports)
      expect(report).not.toMatch(
        /[\x00-\x09\x0b-\x1f\x7f-\x9f\u202e\ufffe\uffff]|^\s*::|##(?:vso|teamcity)?\[/m,
      );
    expect(reports.join('')).toContain('&lt;U+');
  });
});
