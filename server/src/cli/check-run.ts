import { type BankRun, bankRun } from './bank/bank-run.ts';
import { type Found, filesAmong, hasStandardInput, noteTasks } from './bank/note-tasks.ts';
import type { NoteJob, NoteShare } from './bank/note-work.ts';
import type { BaselineChoice, RunBaseline } from './baseline/run-baseline.ts';
import type { CacheFolder } from './cache/cache-folder.ts';
import { findNotes } from './files.ts';
import type { Mending } from './mending/note-mending.ts';
import type { ConfigChoice } from './note-settings.ts';
import { type Output, standardOutput } from './output.ts';
import type { OpenedReports, OwnFile, ReportToFile } from './reporters/opened-reports.ts';
import type { Checkout } from './reporters/path-from-root.ts';
import { type ReportFormat, reporterOf } from './reporters/report-choice.ts';
import { type RunReports, runReports } from './reporters/run-reports.ts';
import type { Shard } from './sharding/shard.ts';
import type { ShardRun } from './sharding/shard-run.ts';
import { isTerminal, outputWidth } from './terminal.ts';
import { wantsColour } from './wants-colour.ts';

export interface CheckOptions {
  readonly format: ReportFormat;
  /** Further reports, into files. */
  readonly reports: readonly ReportToFile[];
  /** Whether waived findings are listed as well. */
  readonly waived: boolean;
  /** Whether only errors are listed. */
  readonly quiet: boolean;
  /** How many warnings there may be; null for any number. */
  readonly maxWarnings: number | null;
  /** What a note from standard input is called; null where nobody says. */
  readonly stdinFilename: string | null;
  readonly config: ConfigChoice;
  /** How many notes are checked at a time; null where the run itself sees what pays. */
  readonly jobs: number | null;
  /** The folder that keeps what checks give from run to run; null for none. */
  readonly cache: CacheFolder | null;
  /** Which share of the notes is checked; null for all. */
  readonly shard: Shard | null;
  /** Whether sure fixes are made, or shown only; null for neither. */
  readonly fix: Mending['mode'] | null;
  /** The file with the findings that do not count; null for none. */
  readonly baseline: BaselineChoice | null;
}

/** A check of notes that is about to begin: where the notes come from, and where what is found of them goes. */
export interface CheckRun {
  readonly run: BankRun;
  readonly reports: RunReports;
  /** Standard output. */
  readonly output: Output;
  /** Whether mending has standard output for itself, so that the report goes to standard error. */
  readonly isAside: boolean;
  readonly baseline: RunBaseline | null;
  readonly shard: ShardRun | null;
  readonly cache: CacheFolder | null;
  /** Leaves out what mending has already shown of the same file under another name. */
  readonly shownOnce: (share: NoteShare) => NoteShare;
}

type Begun =
  | { readonly ok: true; readonly check: CheckRun }
  /** A sentence that says what stands in the way. */
  | { readonly ok: false; readonly trouble: string };

/** Whoever reads a file has as many columns as a page. */
const WIDTH_IN_A_FILE = 100;

/** Opens what a check of notes needs; no note is read yet. */
export async function checkRun(paths: readonly string[], options: CheckOptions): Promise<Begun> {
  const opened = await openedBaseline(options.baseline);
  if (!opened.ok) return opened;
  const { baseline } = opened;
  const files = await openedReports(options.reports, ownFiles(paths, options));
  if (!files.ok) return files;
  // What mending has for standard output leaves no room for a report there.
  const isAside = options.fix === 'show' || (options.fix === 'write' && hasStandardInput(paths));
  const job = await jobOf(paths, options, isAside);
  const all = noteTasks(paths, options.stdinFilename);
  const founds = baseline?.handOut(all) ?? all;
  const shard = options.shard === null ? null : await shardOf(options.shard, founds, job);
  const reporters = await Promise.all(
    job.reports.map(async report => {
      const whole = await reporterOf(report);
      return shard?.sealed(whole, report.format) ?? whole;
    }),
  );
  const run = await bankRun(shard?.founds ?? founds, job, {
    jobs: options.jobs,
    countable: () => shard?.among(findNotes(filesAmong(paths))) ?? findNotes(filesAmong(paths)),
  });
  const output = await diffsAmong(options.fix, standardOutput(run.clearTerminal));
  const report = isAside ? (await import('./error-output.ts')).errorOutput(run.clearTerminal) : output;
  const reports = await runReports(
    [report, ...files.outputs].map((to, at) => ({
      reporter: reporters[at]!,
      output: to,
      isSilent: at === 0 && options.fix === 'show',
    })),
  );
  const ofNewFile = await shownOnce(options.fix);
  const { cache } = job;
  return {
    ok: true,
    check: { run, reports, output, isAside, baseline, shard, cache, shownOnce: ofNewFile },
  };
}

async function shardOf(shard: Shard, founds: AsyncIterable<Found>, job: NoteJob): Promise<ShardRun> {
  const { shardRun } = await import('./sharding/shard-run.ts');
  return shardRun(founds, shard, job);
}

async function jobOf(
  paths: readonly string[],
  { format, reports, waived, quiet, config, cache, fix }: CheckOptions,
  isAside: boolean,
): Promise<NoteJob> {
  const colour = wantsColour(process.env, await isTerminal(isAside ? 2 : 1));
  const mending = fix === null ? null : await mendingOf(paths, fix);
  const shown = { waived, quiet, checkout: await checkout() };
  return {
    ...{ config, cache, mending },
    reports: [
      { ...shown, format, colour, width: await outputWidth() },
      ...reports.map(each => ({ ...shown, format: each.format, colour: false, width: WIDTH_IN_A_FILE })),
    ],
  };
}

async function checkout(): Promise<Checkout | null> {
  if (process.env.GITHUB_WORKSPACE === undefined) return null;
  const { checkoutOf } = await import('./reporters/path-from-root.ts');
  return checkoutOf(process.env, process.cwd());
}

async function diffsAmong(fix: CheckOptions['fix'], output: Output): Promise<Output> {
  return fix === 'show' ? (await import('./mending/diff-output.ts')).diffOutput(output, process.env) : output;
}

async function shownOnce(fix: CheckOptions['fix']): Promise<(share: NoteShare) => NoteShare> {
  return fix === 'show' ? (await import('./mending/shown-once.ts')).shownOnce() : share => share;
}

async function openedReports(
  wanted: readonly ReportToFile[],
  own: readonly OwnFile[],
): Promise<OpenedReports> {
  if (wanted.length === 0) return { ok: true, outputs: [] };
  return (await import('./reporters/opened-reports.ts')).openedReports(wanted, own);
}

/** What the command line names for the run to read. */
function ownFiles(paths: readonly string[], { baseline, config }: CheckOptions): readonly OwnFile[] {
  return [
    ...(baseline === null ? [] : [{ file: baseline.path, is: 'the baseline of this run' }]),
    ...(config.kind === 'file' ? [{ file: config.path, is: 'the configuration of this run' }] : []),
    ...filesAmong(paths).map(file => ({ file, is: 'one of the notes to check' })),
  ];
}

async function mendingOf(paths: readonly string[], mode: Mending['mode']): Promise<Mending> {
  const { givenFolders } = await import('./mending/given-folders.ts');
  const watched = (await isTerminal(1)) ? { colour: wantsColour(process.env, true) } : null;
  return { mode, folders: await givenFolders(filesAmong(paths)), watched };
}

type Opened =
  | { readonly ok: true; readonly baseline: RunBaseline | null }
  | { readonly ok: false; readonly trouble: string };

async function openedBaseline(choice: BaselineChoice | null): Promise<Opened> {
  if (choice === null) return { ok: true, baseline: null };
  const { runBaseline } = await import('./baseline/run-baseline.ts');
  return runBaseline(choice);
}
