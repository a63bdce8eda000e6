import { configChoice } from '../note-settings.ts';
import type { AddCommand } from './command.ts';
import { CONFIG, NO_CONFIG, STDIN_FILENAME } from './shared-options.ts';

/** `leastwise render`: a note to be published. */
export const renderCommand: AddCommand = (program, done) => {
  program
    .command('render')
    .description('write a note as plain Markdown, with tables, workings and figures, to be published')
    .argument('<NOTE>', 'a note; - for standard input')
    .requiredOption('--out <dir>', 'the folder for the note; its figures go into a folder figures there')
    .option('--question', 'leave out all that gives the answers away')
    .option(...STDIN_FILENAME)
    .option(...CONFIG)
    .option(...NO_CONFIG)
    .action(async (target: string, options: TypedRenderOptions) => {
      const { render } = await import('../render.ts');
      const { out, question, stdinFilename, config } = options;
      done(
        await render(target, {
          ...{ out, question: question === true, stdinFilename: stdinFilename ?? null },
          config: configChoice(config),
        }),
      );
    });
};

interface TypedRenderOptions {
  readonly out: string;
  readonly question?: true;
  readonly stdinFilename?: string;
  readonly config?: string | boolean;
}
