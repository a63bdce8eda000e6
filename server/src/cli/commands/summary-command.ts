import { Option } from 'commander';
import { configChoice } from '../note-settings.ts';
import type { AddCommand } from './command.ts';
import { CONFIG, NO_CONFIG, STDIN_FILENAME } from './shared-options.ts';

/** `leastwise summary`: what a bank holds. */
export const summaryCommand: AddCommand = (program, done) => {
  program
    .command('summary')
    .description('tell what notes hold: instruments, what is asked, findings, keys, questions set twice')
    .argument('[PATH...]', 'notes, folders or patterns; - for standard input')
    .addOption(
      new Option('--format <format>', 'tables, or one JSON document')
        .choices(['pretty', 'json'])
        .default('pretty'),
    )
    .option(...STDIN_FILENAME)
    .option(...CONFIG)
    .option(...NO_CONFIG)
    .action(async (paths: string[], { format, stdinFilename, config }: TypedOptions) => {
      const { summarize } = await import('../holdings/summarize.ts');
      done(
        await summarize(paths, {
          format,
          stdinFilename: stdinFilename ?? null,
          config: configChoice(config),
        }),
      );
    });
};

interface TypedOptions {
  readonly format: 'pretty' | 'json';
  readonly stdinFilename?: string;
  readonly config?: string | boolean;
}
