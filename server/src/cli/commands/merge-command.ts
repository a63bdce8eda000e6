import type { AddCommand } from './command.ts';
import { maxWarnings } from './report-options.ts';

/** `leastwise merge`: the shares of a bank, put together. */
export const mergeCommand: AddCommand = (program, done) => {
  program
    .command('merge')
    .description('put the JSON reports of all shares of a bank together, as one run would have printed them')
    .argument('<REPORT...>', 'the reports of `check --shard I/N --format json`, in any order')
    .addOption(maxWarnings())
    .action(async (paths: string[], options: { readonly maxWarnings?: number }) => {
      const { merge } = await import('../sharding/merge.ts');
      done(await merge(paths, options.maxWarnings ?? null));
    });
};
