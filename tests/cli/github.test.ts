import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Finding } from '../../server/src/checks/finding.ts';
import { coloursFor } from '../../server/src/cli/colours.ts';
import { githubReporter } from '../../server/src/cli/reporters/github.ts';
import { prettyReporter } from '../../server/src/cli/reporters/pretty.ts';
import { folderOf, leastwise } from '../support/command.ts';
import { aFinding } from '../support/fake-check.ts';
import { hostileText } from '../support/hostile-texts.ts';
import { WAIVING_NOTE, WARNING_NOTE, WRONG_NOTE } from '../support/workshop-notes.ts';

interface Command {
  readonly name: string;
  readonly properties: Readonly<Record<string, string>>;
  readonly message: string;
}

/**
 * A line as GitHub's runner takes it for a command or not: two colons behind blanks at its start, the name, properties parted
 * by commas, two colons, the message, all of it unescaped (github.com/actions/runner, ActionCommand.cs, from memory).
 */
function commandIn(line: string): Command | null {
  const match = /^\s*::([^\s:]+)(?: (.*?))?::(.*)$/s.exec(line);
  if (match === null) return null;
  const [, name = '', listed = '', message = ''] = match;
  const properties = listed.split(',').map(each => {
    const at = each.indexOf('=');
    return [each.slice(0, at), unescaped(each.slice(at + 1), true)] as const;
  });
  return { name, properties: Object.fromEntries(properties), message: unescaped(message, false) };
}

function unescaped(text: string, isProperty: boolean): string {
  const plain = text.replaceAll('%0D', '\r').replaceAll('%0A', '\n');
  const more = isProperty ? plain.replaceAll('%3A', ':').replaceAll('%2C', ',') : plain;
  return more.replaceAll('%25', '%');
}

const lineOf = (finding: Partial<Finding>, path = 'a.md', text = 'some words\nof a note\n') => {
  const reporter = githubReporter({ waived: true, quiet: false, checkout: null, colours: NO_COLOURS });
  const piece = String(reporter.note(path, text, { blocks: [], findings: [aFinding(finding)] }));
  return reporter.add(piece) + reporter.keeps!.later(piece);
};
const NO_COLOURS = await coloursFor(false);

describe('the report for GitHub', () => {
  it('is a workflow command for each finding, errors first, and a line at the end', () => {
    const cwd = folderOf({ 'a.md': WARNING_NOTE, 'b.md': WRONG_NOTE, 'c.md': WAIVING_NOTE });
    const { stdout, status } = leastwise(['check', '.', '--format', 'github', '--waived'], { cwd });
    const lines = stdout.trimEnd().split('\n');
    const commands = lines.map(commandIn);
    expect(status).toBe(1);
    expect(commands.map(command => command?.name)).toEqual(['error', 'warning', 'notice', undefined]);
    expect(commands[0]).toMatchObject({
      properties: { file: 'b.md', line: '15', endLine: '15', title: expect.stringContaining('wrong-value') },
      message: expect.stringContaining('2.484 cm is right'),
    });
    expect(lines.at(-1)).toBe('3 notes, 3 blocks, 8 claims checked: 1 error, 1 warning (1 waived)');
  });

  it('tells a place that goes over lines without columns, which GitHub does not take there', () => {
    expect(commandIn(lineOf({ span: { start: 5, end: 14 } }))?.properties).toEqual({
      ...{ file: 'a.md', line: '1', endLine: '2', title: 'wrong-value' },
    });
    expect(commandIn(lineOf({ span: { start: 5, end: 10 } }))?.properties).toMatchObject({
      col: '6',
      endColumn: '11',
    });
  });

  it('escapes as GitHub documents: %25 %0D %0A, and %3A %2C in properties', () => {
    const line = lineOf({ message: '100 %, a: b\r\nc' }, 'set 1,2: 100%.md');
    expect(line).toContain('file=set 1%2C2%3A 100%25.md,');
    expect(line).toContain('::100 %25, a: b%0D%0Ac\n');
  });

  it('tells what could not be done', () => {
    const { stdout } = leastwise(['check', 'gone.md', '--format', 'github'], { cwd: folderOf({}) });
    expect(commandIn(stdout.trimEnd())).toEqual({
      ...{ name: 'error', properties: { title: 'leastwise' }, message: 'there is no file or folder gone.md' },
    });
  });

  it('names no file for a note that has none', () => {
    const { stdout } = leastwise(['check', '-', '--format', 'github'], { input: WRONG_NOTE });
    expect(stdout).toMatch(/^::error line=15,/);
  });

  it('is one command a finding, in a line of its own, whatever a note holds', () => {
    fc.assert(
      fc.property(hostileText, hostileText, (message, path) => {
        const text = lineOf({ message, waived: null }, `${path}.md`, message);
        const lines = text.split('\n');
        expect(lines).toHaveLength(2);
        const command = commandIn(lines[0]!);
        expect(command?.name).toBe('error');
        expect(Object.keys(command!.properties).sort()).toEqual(
          expect.arrayContaining(['endLine', 'file', 'line', 'title']),
        );
        expect(command!.properties.title).toBe('wrong-value');
        expect(lines[0]).not.toMatch(/[\x00-\x1f\x7f-\x9f\u202e]|##(?:vso|teamcity)?\[/);
      }),
      { numRuns: 300 },
    );
  });
});

describe('the report for people', () => {
  it('holds no command of a build host, whatever a note or its path holds', async () => {
    const reporter = prettyReporter({ colours: NO_COLOURS, width: 60, waived: true, quiet: false });
    await fc.assert(
      fc.asyncProperty(hostileText, hostileText, async (message, path) => {
        const finding = aFinding({
          ...{ message, stated: message, computed: path, block: path, waived: message, row: path },
          related: [{ span: { start: 0, end: 1 }, message: path }],
          fixes: [{ title: path, sure: true, edits: [] }],
        });
        const text = await reporter.note(path, message, { blocks: [], findings: [finding] });
        expect(text).not.toMatch(/^\s*::|##(?:vso|teamcity)?\[/m);
      }),
      { numRuns: 300 },
    );
  });

  it('keeps them out of sentences about what could not be done, too', () => {
    const { stderr } = leastwise(['check', '##[error]gone.md', '::error::gone.md'], { cwd: folderOf({}) });
    expect(stderr).toContain('<U+0023>#[error]gone.md');
    expect(stderr).not.toMatch(/^::/m);
  });
});
