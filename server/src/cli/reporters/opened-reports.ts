import type { Output } from '../output.ts';
import type { ReportFormat } from './report-choice.ts';
import { identityOf, openReportFile } from './report-file.ts';

/** A report that goes into a file, as the command line asks for it. */
export interface ReportToFile {
  readonly format: ReportFormat;
  readonly file: string;
}

/** A file that the run itself needs, and what it is to it: `the baseline of this run`. */
export interface OwnFile {
  readonly file: string;
  readonly is: string;
}

/** The outputs of all reports that go into files, in their order, or why one of them cannot be had. */
export type OpenedReports =
  | { readonly ok: true; readonly outputs: readonly Output[] }
  | { readonly ok: false; readonly trouble: string };

/**
 * Opens all of them before a note is read, so that nobody waits for a report that cannot be. Where one fails, none is left
 * behind. None takes the place of a file that the run itself needs.
 */
export async function openedReports(
  wanted: readonly ReportToFile[],
  own: readonly OwnFile[],
): Promise<OpenedReports> {
  const outputs: Output[] = [];
  const taken = new Map<string, string>();
  /** Why a report may not go into a file of that identity, in a sentence; null where it may. */
  const troubleWith = (file: string, identity: string): string | null => {
    const needed = own.find(each => identityOf(each.file) === identity);
    if (needed !== undefined) return `${file} is ${needed.is}, and no report takes its place`;
    const first = taken.get(identity);
    taken.set(identity, first ?? file);
    if (first === undefined) return null;
    return `two reports would go into one file, ${file}${first === file ? '' : `, which is ${first} as well`}`;
  };
  for (const { file } of wanted) {
    const opened = openReportFile(file);
    if (opened.ok) outputs.push(opened.output);
    const trouble = opened.ok ? troubleWith(file, opened.identity) : opened.trouble;
    if (trouble === null) continue;
    for (const output of outputs) await output.drop?.();
    return { ok: false, trouble };
  }
  return { ok: true, outputs };
}
