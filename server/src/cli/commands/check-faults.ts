/** Options of `check` that have to do with each other. */
interface Together {
  readonly format: string;
  readonly fix?: true;
  readonly dryRun?: true;
  readonly baseline?: string;
  readonly cache?: string | true;
  readonly config?: string | boolean;
  readonly recordBaseline?: true;
  readonly pruneBaseline?: true;
  readonly shard?: string;
}

/** Why options cannot be had together, in a sentence; null where they can. */
export function faultOfOptions(options: Together, paths: readonly string[]): string | null {
  const { format, fix, dryRun, baseline, cache, config, recordBaseline, pruneBaseline, shard } = options;
  const nameless = Object.entries({ baseline, cache, config }).find(([, name]) => name === '');
  if (nameless !== undefined) return `--${nameless[0]} is followed by an empty name`;
  const changesBaseline = recordBaseline === true || pruneBaseline === true;
  if (dryRun && !fix) return '--dry-run shows what --fix would write: name both';
  if (dryRun && format !== 'pretty')
    return `with --dry-run standard output holds the diff: write the report to a file, --report ${format}=FILE`;
  if (fix && !dryRun && paths.length > 1 && paths.includes('-'))
    return 'the note on standard input goes to standard output when it is mended, so no others can be checked with it';
  if (changesBaseline && baseline === undefined)
    return `${recordBaseline ? '--record-baseline' : '--prune-baseline'} needs a file: name it with --baseline`;
  if (changesBaseline && dryRun) return '--dry-run writes nothing, so no baseline either';
  if (changesBaseline && shard !== undefined)
    return 'a baseline is changed by one run over the whole bank: leave --shard out';
  if (recordBaseline && pruneBaseline)
    return '--record-baseline drops already what no longer occurs: leave --prune-baseline out';
  return null;
}
