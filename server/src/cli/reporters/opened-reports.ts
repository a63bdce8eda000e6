import type { Output } from '../output.ts';
import type { ReportFormat } from './report-choice.ts';
import { openReportFile } from './report-file.ts';

/** A report that goes into a file, as the command line asks for it. */
export interface ReportToFile {
  readonly format: ReportFormat;
  readonly file: string;
}

/** The outputs of all reports that go into files, in their order, or why one of them cannot be had. */
export type OpenedReports =
  | { readonly ok: true; readonly outputs: readonly Output[] }
  | { readonly ok: false; readonly trouble: string };

/** Opens all of them before a note is read, so that nobody waits for a report that cannot be. Where one fails, none is left behind. */
export async function openedReports(wanted: readonly ReportToFile[]): Promise<OpenedReports> {
  const outputs: Output[] = [];
  const taken = new Map<string, string>();
  for (const { file } of wanted) {
    const opened = openReportFile(file);
    if (opened.ok) outputs.push(opened.output);
    const first = opened.ok ? taken.get(opened.identity) : undefined;
    if (opened.ok && first === undefined) {
      taken.set(opened.identity, file);
      continue;
    }
    for (const output of outputs) await output.drop?.();
    const trouble = opened.ok
      ? `two reports would go into one file, ${file}${first === file ? '' : `, which is ${first} as well`}`
      : opened.trouble;
    return { ok: false, trouble };
  }
  return { ok: true, outputs };
}
