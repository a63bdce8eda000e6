import type { CheckedBlock, CheckedNote, Finding, ReportedQuantity } from '../../checks/finding.ts';
import { type LineIndex, lineIndex, placeAt } from '../../checks/line-index.ts';
import type { Fix } from '../../language/problem.ts';
import type { Span } from '../../language/syntax.ts';
import type { Summary } from '../summary.ts';
import type { Reporter } from './reporter.ts';

/**
 * The facts for programs: one JSON document, a note a line, so that a bank of any size streams.
 * With `waived` the waived findings are listed too, and every finding then tells its waiver's reason.
 */
export function jsonReporter(options: { readonly waived: boolean }): Reporter {
  let separator = '\n';
  return {
    opening: '{"version":1,"notes":[',
    note: (path, text, note) => asJson(noteFacts(path, text, note, options.waived)),
    add: piece => {
      const line = separator + piece;
      separator = ',\n';
      return line;
    },
    closing: summary => `\n],"summary":${asJson(summaryFacts(summary, options.waived))}}\n`,
  };
}

function noteFacts(path: string, text: string, note: CheckedNote, waived: boolean): object {
  const index = lineIndex(text);
  return {
    path,
    blocks: note.blocks.map(block => blockFacts(index, block)),
    findings: note.findings
      .filter(finding => waived || finding.waived === null)
      .map(finding => findingFacts(index, finding, waived)),
  };
}

function blockFacts(index: LineIndex, block: CheckedBlock): object {
  const { line } = placeAt(index, block.span.start);
  return {
    name: block.name,
    line,
    quantities: block.quantities.map(quantity => quantityFacts(index, quantity, line)),
  };
}

function quantityFacts(index: LineIndex, quantity: ReportedQuantity, blockLine: number): object {
  return {
    term: quantity.term,
    name: quantity.name,
    row: quantity.row,
    line: quantity.span === null ? blockLine : placeAt(index, quantity.span.start).line,
    value: quantity.value,
    unit: quantity.unit,
    exact: quantity.exact,
    shown: quantity.shown,
    source: quantity.source,
  };
}

function findingFacts(index: LineIndex, finding: Finding, waived: boolean): object {
  return {
    rule: finding.rule,
    severity: finding.severity,
    message: finding.message,
    block: finding.block,
    term: finding.term,
    row: finding.row,
    ...placeFacts(index, finding.span),
    stated: finding.stated,
    computed: finding.computed,
    slip: finding.slip,
    cause: finding.cause === null ? null : placeAt(index, finding.cause.start).line,
    fixes: finding.fixes.map(fix => fixFacts(index, fix)),
    ...(waived ? { waived: finding.waived } : {}),
  };
}

function fixFacts(index: LineIndex, fix: Fix): object {
  return {
    title: fix.title,
    edits: fix.edits.map(edit => ({ ...placeFacts(index, edit.span), newText: edit.newText })),
  };
}

function placeFacts(index: LineIndex, span: Span): object {
  const start = placeAt(index, span.start);
  const end = placeAt(index, span.end);
  return { line: start.line, column: start.column, endLine: end.line, endColumn: end.column };
}

function summaryFacts(summary: Summary, withWaived: boolean): object {
  const { notes, blocks, claims, errors, warnings, waived } = summary;
  return { notes, blocks, claims, errors, warnings, ...(withWaived ? { waived } : {}) };
}

/** What JSON allows in a string but a terminal must not get: DEL, C1, separators, marks of the writing direction. */
const UNSAFE_IN_A_TERMINAL = /[\u007f-\u009f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069\ufeff]/g;

function asJson(facts: object): string {
  return JSON.stringify(facts).replace(
    UNSAFE_IN_A_TERMINAL,
    character => `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
}
