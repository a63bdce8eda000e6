import type { ShareReport } from './share-report.ts';

/** Reports in the order of their shares, and a sentence for everything that keeps them from being one bank. */
export interface Together {
  readonly inOrder: readonly ShareReport[];
  readonly troubles: readonly string[];
}

/**
 * Whether reports are all the shares of one bank, each once. Where others could not be read (`someUnreadable`), a share
 * that is missing may be among them, so it is not told.
 */
export function belongingTogether(reports: readonly ShareReport[], someUnreadable: boolean): Together {
  const [first] = reports;
  if (first === undefined) return { inOrder: [], troubles: [] };
  const troubles: string[] = [];
  const byIndex = new Map<number, ShareReport>();
  for (const report of reports) {
    const { index, of, bank } = report.facts;
    const before = byIndex.get(index);
    if (bank === null)
      troubles.push(
        `${report.path} is the report of a check that was interrupted: check share ${index}/${of} again`,
      );
    else if (of !== first.facts.of)
      troubles.push(
        `${report.path} is a share of ${of} and ${first.path} one of ${first.facts.of}, so they are not of one bank`,
      );
    else if (before !== undefined)
      troubles.push(`${report.path} is share ${index}/${of}, as ${before.path} is: each may come but once`);
    else byIndex.set(index, report);
  }
  for (const report of byIndex.values())
    if (
      first.facts.bank !== null &&
      (report.facts.bank !== first.facts.bank || counts(report) !== counts(first))
    )
      troubles.push(
        `${report.path} is not of the same bank as ${first.path}: other notes, other settings or another version`,
      );
  if (troubles.length > 0 || someUnreadable) return { inOrder: [], troubles };
  const { of } = first.facts;
  const missing = numbersTo(of).filter(index => !byIndex.has(index));
  if (missing.length > 0) return { inOrder: [], troubles: [missingTold(missing, of)] };
  const inOrder = numbersTo(of).flatMap(index => byIndex.get(index) ?? []);
  return {
    inOrder,
    troubles: areDealtOut(inOrder) ? [] : ['the shares do not fit each other: check all of them again'],
  };
}

/** What a report counts; all shares of a bank count the same things. */
function counts({ totals }: ShareReport): string {
  return Object.keys(totals).join(' ');
}

/** Whether the first shares have as many notes as the last, or one more, as when they are dealt out in turn. */
function areDealtOut(reports: readonly ShareReport[]): boolean {
  const all = reports.reduce((sum, { facts }) => sum + facts.places, 0);
  return reports.every(({ facts }, at) => facts.places === Math.ceil((all - at) / reports.length));
}

const MOST_TOLD = 10;

function missingTold(missing: readonly number[], of: number): string {
  const names = missing.slice(0, MOST_TOLD).map(index => `${index}/${of}`);
  if (missing.length === 1) return `share ${names[0]} is missing`;
  if (missing.length > MOST_TOLD)
    return `shares ${names.join(', ')} and ${missing.length - MOST_TOLD} more are missing`;
  return `shares ${names.slice(0, -1).join(', ')} and ${names.at(-1)} are missing`;
}

function numbersTo(last: number): readonly number[] {
  return Array.from({ length: last }, (_, at) => at + 1);
}
