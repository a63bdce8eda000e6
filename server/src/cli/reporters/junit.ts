import type { CheckedBlock, CheckedNote, Finding } from '../../checks/finding.ts';
import { type LineIndex, lineIndex, placeAt } from '../../checks/line-index.ts';
import type { Reporter } from './reporter.ts';
import { type Shown, shownFindings } from './shown-findings.ts';
import { xmlText } from './xml-text.ts';

/**
 * The report that build hosts draw tables of: JUnit's XML, in the form that Jenkins has a schema of. A note is a test suite,
 * a block a test case, which fails where it holds an error; a note that could not be read is an error. Warnings are told in the
 * output of their test case, since a warning fails nothing.
 */
export function junitReporter(options: Shown): Reporter {
  return {
    opening: '<?xml version="1.0" encoding="UTF-8"?>\n<testsuites name="leastwise">\n',
    note: (path, text, note) => suite(path, casesOf(text, note, shownFindings(note, options))),
    add: String,
    closing: () => '</testsuites>\n',
    keeps: {
      later: () => '',
      beforeLater: () => '',
      beforeTroubles: () => '',
      trouble: sentence => {
        const name = attribute('name', sentence);
        const error = `<error${attribute('type', 'not checked')}${attribute('message', sentence)}/>`;
        return `<testsuite name="leastwise" tests="1" failures="0" errors="1">\n<testcase${name} classname="leastwise">${error}</testcase>\n</testsuite>\n`;
      },
    },
  };
}

/** What became of one block, or of the text around the blocks. */
interface Case {
  readonly name: string;
  readonly errors: readonly string[];
  /** The rule of the first error; null where there is none. */
  readonly rule: string | null;
  readonly others: readonly string[];
}

function suite(path: string, cases: readonly Case[]): string {
  const failures = cases.filter(({ rule }) => rule !== null).length;
  const counts = ` tests="${cases.length}" failures="${failures}" errors="0"`;
  const open = `<testsuite${attribute('name', path)}${counts}${attribute('file', path)}>`;
  const className = attribute('classname', path.replace(/\.(?:md|markdown)$/i, ''));
  return `${open}\n${cases.map(each => testCase(each, className)).join('')}</testsuite>\n`;
}

function testCase({ name, errors, rule, others }: Case, className: string): string {
  const [first = '', ...more] = errors;
  const message = more.length === 0 ? first : `${first} (and ${more.length} more)`;
  const failure =
    rule === null
      ? ''
      : `<failure${attribute('type', rule)}${attribute('message', message)}>${xmlText(errors.join('\n'))}</failure>`;
  const output = others.length === 0 ? '' : `<system-out>${xmlText(others.join('\n'))}</system-out>`;
  return `<testcase${attribute('name', name)}${className}>${failure}${output}</testcase>\n`;
}

function attribute(name: string, text: string): string {
  return ` ${name}="${xmlText(text)}"`;
}

function casesOf(text: string, note: CheckedNote, findings: readonly Finding[]): readonly Case[] {
  const index = lineIndex(text);
  const inBlock = (block: CheckedBlock) => (finding: Finding) =>
    block.span.start <= finding.span.start && finding.span.start < block.span.end;
  const around = findings.filter(finding => !note.blocks.some(block => inBlock(block)(finding)));
  const names = uniqueNames(note.blocks);
  return [
    ...note.blocks.map((block, at) => caseOf(names[at] ?? '', findings.filter(inBlock(block)), index)),
    ...(around.length === 0 ? [] : [caseOf('around the blocks', around, index)]),
  ];
}

function caseOf(name: string, findings: readonly Finding[], index: LineIndex): Case {
  const isError = ({ severity, waived }: Finding) => severity === 'error' && waived === null;
  const errors = findings.filter(isError);
  return {
    name,
    errors: errors.map(finding => told(finding, index)),
    rule: errors[0]?.rule ?? null,
    others: findings.filter(finding => !isError(finding)).map(finding => told(finding, index)),
  };
}

function told(finding: Finding, index: LineIndex): string {
  const { rule, slip, severity, message, waived, span } = finding;
  const { line } = placeAt(index, span.start);
  const why = slip === null ? rule : `${rule}, the slip ${slip}`;
  const said = `line ${line}: ${message} [${why}]`;
  if (waived !== null) return `waived: ${said}, because: ${waived}`;
  return severity === 'error' ? said : `warning: ${said}`;
}

/** A block's name, or its number in the note, which outlives lines that come or go; none twice. */
function uniqueNames(blocks: readonly CheckedBlock[]): readonly string[] {
  const taken = new Map<string, number>();
  return blocks.map(({ name }, at) => {
    const wanted = name ?? `block ${at + 1}`;
    const number = (taken.get(wanted) ?? 0) + 1;
    taken.set(wanted, number);
    return number === 1 ? wanted : `${wanted} (${number})`;
  });
}
