import { noteTasks } from './bank/note-tasks.ts';
import { type NoteJob, type NoteShare, noteWork } from './bank/note-work.ts';
import { complain, type ExitStatus } from './complain.ts';
import { keepMemoryFlat } from './keep-memory-flat.ts';
import type { ConfigChoice } from './note-settings.ts';
import { standardOutput } from './output.ts';
import { type ReportFormat, reporterOf } from './reporters/report-choice.ts';
import { EMPTY_SUMMARY, withCounts } from './summary.ts';
import { isTerminal, outputWidth } from './terminal.ts';
import { wantsColour } from './wants-colour.ts';

export interface CheckOptions {
  readonly format: ReportFormat;
  /** Whether waived findings are listed as well. */
  readonly waived: boolean;
  /** What a note from standard input is called; null where nobody says. */
  readonly stdinFilename: string | null;
  readonly config: ConfigChoice;
}

/** From how many notes on a run is long enough for its memory to matter more than its start. */
const A_BANK = 50;

/**
 * Checks notes and reports as it goes; no more than a few notes are held at a time. What cannot be read is told on
 * standard error, and the rest is checked all the same.
 */
export async function checkNotes(paths: readonly string[], options: CheckOptions): Promise<ExitStatus> {
  const job = await jobOf(options);
  const [reporter] = await Promise.all(job.reports.map(reporterOf));
  const output = standardOutput();
  const configTold = new Set<string>();
  let summary = EMPTY_SUMMARY;
  let able = true;
  const unable = (trouble: string) => {
    able = false;
    complain(trouble);
  };
  const tell = ({ troubles, configTroubles, notices }: NoteShare) => {
    for (const trouble of troubles) unable(trouble);
    for (const trouble of configTroubles) {
      if (!configTold.has(trouble)) unable(trouble);
      configTold.add(trouble);
    }
    for (const notice of notices) complain(notice);
  };

  const shareOf = await noteWork(job);
  await output.write(reporter?.opening ?? '');
  for await (const found of noteTasks(paths, options.stdinFilename)) {
    if (found.kind === 'trouble') {
      unable(found.message);
      continue;
    }
    const share = await shareOf(found.task);
    tell(share);
    if (share.counts === null) continue;
    summary = withCounts(summary, share.counts);
    if (summary.notes === A_BANK) await keepMemoryFlat();
    await output.write(reporter?.add(share.pieces[0] ?? '') ?? '');
  }
  await output.write(reporter?.closing(summary) ?? '');
  const failure = await output.end();
  if (failure !== null) unable(failure);
  return !able ? 2 : summary.errors > 0 ? 1 : 0;
}

async function jobOf({ format, waived, config }: CheckOptions): Promise<NoteJob> {
  const colour = wantsColour(process.env, await isTerminal(1));
  return { config, reports: [{ format, waived, colour, width: await outputWidth() }] };
}
