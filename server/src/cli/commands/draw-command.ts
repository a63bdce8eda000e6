import { Option } from 'commander';
import type { DrawOptions } from '../draw.ts';
import { configChoice } from '../note-settings.ts';
import type { AddCommand } from './command.ts';
import { CONFIG, NO_CONFIG, STDIN_FILENAME } from './shared-options.ts';

/** `leastwise draw`: the scales as files. */
export const drawCommand: AddCommand = (program, done) => {
  program
    .command('draw')
    .description('draw the scales of a note as they were read, as SVG files')
    .argument('<NOTE[#BLOCK]>', 'a note, or one block of it; - for standard input')
    .addOption(
      new Option('--style <style>', 'marks and numbers only, or with the reading explained')
        .choices(['question', 'worked'])
        .default('worked'),
    )
    .option('--out <dir>', 'the folder for the files')
    .option('--insert', 'put image lines into the note, and the files beside it where no folder is named')
    .option('--rows', 'every row of a table, not only the first')
    .option(...STDIN_FILENAME)
    .option(...CONFIG)
    .option(...NO_CONFIG)
    .action(async (target: string, options: TypedDrawOptions) => {
      const { draw } = await import('../draw.ts');
      done(await draw(target, drawOptions(options)));
    });
};

interface TypedDrawOptions {
  readonly style: DrawOptions['style'];
  readonly out?: string;
  readonly insert?: true;
  readonly rows?: true;
  readonly stdinFilename?: string;
  readonly config?: string | boolean;
}

function drawOptions({ style, out, insert, rows, stdinFilename, config }: TypedDrawOptions): DrawOptions {
  return {
    ...{ style, out: out ?? null, insert: insert === true, rows: rows === true },
    stdinFilename: stdinFilename ?? null,
    config: configChoice(config),
  };
}
