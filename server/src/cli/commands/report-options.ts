import { InvalidArgumentError, Option } from 'commander';
import type { ReportToFile } from '../reporters/opened-reports.ts';
import { REPORT_FORMATS, type ReportFormat } from '../reporters/report-choice.ts';

const FORMATS = `${REPORT_FORMATS.slice(0, -1).join(', ')} or ${REPORT_FORMATS.at(-1)}`;

/** What the words of `check` say about reports. */
export interface TypedReports {
  readonly format: ReportFormat;
  readonly report?: readonly ReportToFile[];
  readonly quiet?: true;
  readonly maxWarnings?: number;
}

/** The options of `check` that say what is reported, where to, and what counts. */
export function reportOptions(): readonly Option[] {
  return [
    new Option('--format <format>', 'the report on standard output')
      .choices([...REPORT_FORMATS])
      .default('pretty'),
    new Option('--report <format=file>', 'one more report, into a file; may be said again').argParser(
      (typed: string, before: readonly ReportToFile[] | undefined) => [...(before ?? []), reportFrom(typed)],
    ),
    new Option('--quiet', 'list errors only; warnings are still counted'),
    maxWarnings(),
  ];
}

/** The option that bounds how many warnings there may be. */
export function maxWarnings(): Option {
  return new Option('--max-warnings <number>', 'more warnings than these count as an error').argParser(
    warningsFrom,
  );
}

function reportFrom(typed: string): ReportToFile {
  const at = typed.indexOf('=');
  const format = REPORT_FORMATS.find(each => each === typed.slice(0, Math.max(at, 0)));
  const file = typed.slice(at + 1);
  if (format === undefined || file === '' || file.includes('\0'))
    throw new InvalidArgumentError(
      `It is a format (${FORMATS}) and a file, as in sarif=reports/notes.sarif.`,
    );
  return { format, file };
}

function warningsFrom(typed: string): number {
  if (/^\d{1,9}$/.test(typed)) return Number(typed);
  throw new InvalidArgumentError('It is a whole number from 0 on.');
}
