import type { CheckedNote, Finding, ReportedQuantity } from '../../../server/src/checks/finding.ts';
import { type Fraction, fractionText } from './fraction.ts';
import { readMeasure } from './measure.ts';

/** The value that a checked note lists for a term outside any table, in the base unit; null where it lists none or several. */
export function listedValue(note: CheckedNote, term: string): Fraction | null {
  const found = quantitiesOf(note).filter(quantity => quantity.term === term && quantity.row === null);
  const [only] = found;
  return only !== undefined && found.length === 1 ? readMeasure(only.value, only.unit) : null;
}

export function quantitiesOf(note: CheckedNote): readonly ReportedQuantity[] {
  return note.blocks.flatMap(block => block.quantities);
}

/** The findings that count, each as `rule "link" (slip): message`, so that a failure can be read. */
export function findingLines(text: string, note: CheckedNote): string[] {
  return counted(note).map(
    finding =>
      `${finding.rule} "${linkOf(text, finding)}"${finding.slip === null ? '' : ` (${finding.slip})`}: ${finding.message}`,
  );
}

export function counted(note: CheckedNote): readonly Finding[] {
  return note.findings.filter(finding => finding.waived === null);
}

export function linkOf(text: string, finding: Finding): string {
  return text.slice(finding.span.start, finding.span.end);
}

/** What a failing test shows: the note, what was wanted, what the tool says. */
export function report(
  text: string,
  note: CheckedNote,
  wanted: Readonly<Record<string, Fraction>> = {},
): string {
  const values = quantitiesOf(note).map(q => `  ${q.term ?? q.name} = ${q.value} ${q.unit} (${q.source})`);
  const wishes = Object.entries(wanted).map(
    ([term, value]) => `  ${term} = ${fractionText(value)} in the base unit`,
  );
  return ['', text, 'wanted:', ...wishes, 'listed:', ...values, 'found:', ...findingLines(text, note)].join(
    '\n',
  );
}
