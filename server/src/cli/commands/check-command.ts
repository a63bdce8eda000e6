import { Option } from 'commander';
import { type CheckOptions, checkNotes } from '../check-notes.ts';
import { configChoice } from '../note-settings.ts';
import type { AddCommand } from './command.ts';
import { CONFIG, NO_CONFIG, STDIN_FILENAME } from './shared-options.ts';

/** `leastwise check`: what does not agree, in a note or in a bank of them. */
export const checkCommand: AddCommand = (program, done) => {
  program
    .command('check')
    .description('check notes and report what does not agree')
    .argument('[PATH...]', 'notes, folders or patterns; - for standard input')
    .addOption(new Option('--format <format>', 'how to report').choices(['pretty', 'json']).default('pretty'))
    .option('--waived', 'list waived findings too, with their reasons')
    .option(...STDIN_FILENAME)
    .option(...CONFIG)
    .option(...NO_CONFIG)
    .action(async (paths: string[], options: TypedOptions) => {
      done(await checkNotes(paths, checkOptions(options)));
    });
};

interface TypedOptions {
  readonly format: 'pretty' | 'json';
  readonly waived?: true;
  readonly stdinFilename?: string;
  readonly config?: string | boolean;
}

function checkOptions({ format, waived, stdinFilename, config }: TypedOptions): CheckOptions {
  return {
    format,
    waived: waived === true,
    stdinFilename: stdinFilename ?? null,
    config: configChoice(config),
  };
}
