import type { Fix } from '../language/problem.ts';
import type { RuleName } from '../language/rule-names.ts';
import type { Span } from '../language/syntax.ts';
import type { CheckedBlock, CheckedNote, Finding, ReportedQuantity, Severity } from './finding.ts';
import { type LineIndex, lineIndex, placeAt } from './line-index.ts';

/** A stretch of a note as editors count: lines and columns from 1, columns in UTF-16 units; the end is the first place behind it. */
export interface Stretch {
  readonly line: number;
  readonly column: number;
  readonly endLine: number;
  readonly endColumn: number;
}

/** A value that a block determines, asked for or not. */
export interface QuantityReport {
  /** The term of the trade; null for a quantity of the block's own. */
  readonly term: string | null;
  /** The symbol or the words of a quantity of the block's own. */
  readonly name: string | null;
  /** A table row's number from 1, or its label; null outside a table. */
  readonly row: number | string | null;
  /** Where it is stated; the block's line where no line does. */
  readonly line: number;
  /** An exact fraction in `unit`; a decimal of 15 figures where `exact` is false; a formula in a block with letters. */
  readonly value: string;
  /** In plain letters, as in um, deg, g/cm^3; null for a mere count. */
  readonly unit: string | null;
  readonly exact: boolean;
  /** The value as people write it, with its unit. */
  readonly shown: string;
  readonly source: 'computed' | 'given' | 'observed';
}

export interface BlockReport {
  /** Null for a block without a name. */
  readonly name: string | null;
  /** The line in which its fence opens. */
  readonly line: number;
  readonly quantities: readonly QuantityReport[];
}

export type EditReport<Where extends Stretch = Stretch> = Where & { readonly newText: string };

export interface FixReport<Where extends Stretch = Stretch> {
  readonly title: string;
  /** All of them belong together; none touches another. */
  readonly edits: readonly EditReport<Where>[];
}

/** One inconsistency, at the faulty link or the record at fault. */
export type FindingReport<Where extends Stretch = Stretch> = Where & {
  readonly rule: RuleName;
  readonly severity: Severity;
  /** What is stated, what is right and why. */
  readonly message: string;
  readonly block: string | null;
  readonly term: string | null;
  readonly row: number | string | null;
  readonly stated: string | null;
  readonly computed: string | null;
  /** The slip that gives the stated number on the same data; null where none is known. */
  readonly slip: string | null;
  /** The line where the trouble began, for what is carried forward. */
  readonly cause: number | null;
  readonly fixes: readonly FixReport<Where>[];
  /** The reason of the waiver that turned this finding off, where waived findings are asked for; null for one that counts. */
  readonly waived?: string | null;
};

/** What programs get of a note. */
export interface NoteReport<Where extends Stretch = Stretch> {
  readonly blocks: readonly BlockReport[];
  /** In the order of their places. */
  readonly findings: readonly FindingReport<Where>[];
}

/** How a stretch of the note is told. */
export type Telling<Where extends Stretch> = (index: LineIndex, span: Span) => Where;

/**
 * The facts of a checked note for programs, with lines and columns for places. With `waived` the waived findings are
 * listed too, and every finding then tells its waiver's reason.
 */
export function noteReport<Where extends Stretch>(
  text: string,
  note: CheckedNote,
  waived: boolean,
  telling: Telling<Where>,
): NoteReport<Where> {
  const index = lineIndex(text);
  return {
    blocks: note.blocks.map(block => blockReport(index, block)),
    findings: note.findings
      .filter(finding => waived || finding.waived === null)
      .map(finding => findingReport(index, finding, waived, telling)),
  };
}

/** Where a stretch begins and ends, in lines and columns. */
export function stretchOf(index: LineIndex, span: Span): Stretch {
  const start = placeAt(index, span.start);
  const end = placeAt(index, span.end);
  return { line: start.line, column: start.column, endLine: end.line, endColumn: end.column };
}

function blockReport(index: LineIndex, block: CheckedBlock): BlockReport {
  const { line } = placeAt(index, block.span.start);
  return {
    name: block.name,
    line,
    quantities: block.quantities.map(quantity => quantityReport(index, quantity, line)),
  };
}

function quantityReport(index: LineIndex, quantity: ReportedQuantity, blockLine: number): QuantityReport {
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

function findingReport<Where extends Stretch>(
  index: LineIndex,
  finding: Finding,
  waived: boolean,
  telling: Telling<Where>,
): FindingReport<Where> {
  return {
    rule: finding.rule,
    severity: finding.severity,
    message: finding.message,
    block: finding.block,
    term: finding.term,
    row: finding.row,
    ...telling(index, finding.span),
    stated: finding.stated,
    computed: finding.computed,
    slip: finding.slip,
    cause: finding.cause === null ? null : placeAt(index, finding.cause.start).line,
    fixes: finding.fixes.map(fix => fixReport(index, fix, telling)),
    ...(waived ? { waived: finding.waived } : {}),
  };
}

function fixReport<Where extends Stretch>(
  index: LineIndex,
  fix: Fix,
  telling: Telling<Where>,
): FixReport<Where> {
  return {
    title: fix.title,
    edits: fix.edits.map(edit => ({ ...telling(index, edit.span), newText: edit.newText })),
  };
}
