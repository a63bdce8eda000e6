import { InvalidArgumentError, Option } from 'commander';
import type { BaselineChoice } from '../baseline/run-baseline.ts';
import type { ChosenCache } from '../cache/chosen-cache.ts';
import { checkNotes } from '../check-notes.ts';
import type { CheckOptions } from '../check-run.ts';
import { complain } from '../complain.ts';
import { configChoice } from '../note-settings.ts';
import type { Shard } from '../sharding/shard.ts';
import { faultOfOptions } from './check-faults.ts';
import type { AddCommand } from './command.ts';
import { reportOptions, type TypedReports } from './report-options.ts';
import { CONFIG, NO_CONFIG, STDIN_FILENAME } from './shared-options.ts';

/** `leastwise check`: what does not agree, in a note or in a bank of them. */
export const checkCommand: AddCommand = (program, done) => {
  const command = program
    .command('check')
    .description('check notes and report what does not agree')
    .argument('[PATH...]', 'notes, folders or patterns; - for standard input');
  for (const option of reportOptions()) command.addOption(option);
  command
    .option('--waived', 'list waived findings too, with their reasons')
    .option(
      '--cache [dir]',
      'keep what is found in a folder, .leastwise-cache if none is named, for the next run',
    )
    .option(
      '--shard <share>',
      'check one share of the notes, as in 2/3; `merge` puts the JSON reports together',
    )
    .addOption(
      new Option('--jobs <number>', 'how many notes to check at a time; without it as many as pay').argParser(
        jobsFrom,
      ),
    )
    .option('--fix', 'make the sure fixes, and report what remains')
    .option('--dry-run', 'with --fix: show the fixes as a unified diff, and write nothing')
    .option('--baseline <file>', 'findings that are recorded there do not count')
    .option('--record-baseline', 'record every finding there is in that file')
    .option('--prune-baseline', 'drop from that file what no longer occurs')
    .option(...STDIN_FILENAME)
    .option(...CONFIG)
    .option(...NO_CONFIG)
    .action(async (paths: string[], options: TypedOptions) => {
      const fault = faultOfOptions(options, paths);
      if (fault !== null) {
        complain(fault);
        return done(2);
      }
      const shard = await typedShard(options);
      const cache = shard.ok ? await cacheFolder(options, paths) : shard;
      if (!shard.ok || !cache.ok) return done(2);
      const { folder } = cache;
      done(await checkNotes(paths, { ...checkOptions(options), cache: folder, shard: shard.shard }));
    });
};

interface TypedOptions extends TypedReports {
  readonly waived?: true;
  readonly cache?: string | true;
  readonly jobs?: number;
  readonly shard?: string;
  readonly fix?: true;
  readonly dryRun?: true;
  readonly baseline?: string;
  readonly recordBaseline?: true;
  readonly pruneBaseline?: true;
  readonly stdinFilename?: string;
  readonly config?: string | boolean;
}

function checkOptions(options: TypedOptions): Omit<CheckOptions, 'cache' | 'shard'> {
  const { format, report, quiet, maxWarnings, waived, jobs, fix, dryRun, stdinFilename, config } = options;
  return {
    ...{ format, reports: report ?? [], quiet: quiet === true, maxWarnings: maxWarnings ?? null },
    waived: waived === true,
    jobs: jobs ?? null,
    fix: fix ? (dryRun ? 'show' : 'write') : null,
    baseline: baselineChoice(options),
    stdinFilename: stdinFilename ?? null,
    config: configChoice(config),
  };
}

function baselineChoice({ baseline, recordBaseline, pruneBaseline }: TypedOptions): BaselineChoice | null {
  if (baseline === undefined) return null;
  return { path: baseline, use: recordBaseline ? 'record' : pruneBaseline ? 'prune' : 'hold' };
}

type ChosenShard = { readonly ok: true; readonly shard: Shard | null } | { readonly ok: false };

async function typedShard({ shard }: TypedOptions): Promise<ChosenShard> {
  if (shard === undefined) return { ok: true, shard: null };
  const { readShard } = await import('../sharding/shard.ts');
  const read = readShard(shard);
  if (!read.ok) complain(read.trouble);
  return read;
}

async function cacheFolder({ cache }: TypedOptions, paths: readonly string[]): Promise<ChosenCache> {
  if (cache === undefined) return { ok: true, folder: null };
  const { chosenCache } = await import('../cache/chosen-cache.ts');
  return chosenCache(cache, paths);
}

const MOST_JOBS = 64;

function jobsFrom(typed: string): number {
  const jobs = /^\d{1,3}$/.test(typed) ? Number(typed) : 0;
  if (1 <= jobs && jobs <= MOST_JOBS) return jobs;
  throw new InvalidArgumentError(`It is a whole number from 1 to ${MOST_JOBS}.`);
}
