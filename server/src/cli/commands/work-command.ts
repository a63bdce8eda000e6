import { Option } from 'commander';
import { configChoice } from '../note-settings.ts';
import type { WorkOptions } from '../work.ts';
import type { AddCommand } from './command.ts';
import { CONFIG, NO_CONFIG, STDIN_FILENAME } from './shared-options.ts';

/** `leastwise work`: how the values of a note follow. */
export const workCommand: AddCommand = (program, done) => {
  program
    .command('work')
    .description('show how the values of a note follow from what was recorded, step by step')
    .argument('<NOTE[#BLOCK]>', 'a note, or one block of it; - for standard input')
    .addOption(new Option('--as <form>', 'how it is written').choices(['lines', 'markdown', 'text']))
    .addOption(
      new Option(
        '--way <way>',
        'how a vernier is read; without it the least count, where that holds',
      ).choices(['least-count', 'scales']),
    )
    .addOption(new Option('--insert', 'write the workings into the note').conflicts('refresh'))
    .option('--refresh', 'renew the workings in the note that are stale')
    .option(...STDIN_FILENAME)
    .option(...CONFIG)
    .option(...NO_CONFIG)
    .action(async (target: string, options: TypedWorkOptions) => {
      const { work } = await import('../work.ts');
      done(await work(target, workOptions(options)));
    });
};

interface TypedWorkOptions {
  readonly as?: NonNullable<WorkOptions['form']>;
  readonly way?: NonNullable<WorkOptions['way']>;
  readonly insert?: true;
  readonly refresh?: true;
  readonly stdinFilename?: string;
  readonly config?: string | boolean;
}

function workOptions(typed: TypedWorkOptions): WorkOptions {
  const { as, way, insert, refresh, stdinFilename, config } = typed;
  return {
    form: as ?? null,
    way: way ?? null,
    write: insert ? 'missing' : refresh ? 'stale' : null,
    stdinFilename: stdinFilename ?? null,
    config: configChoice(config),
  };
}
