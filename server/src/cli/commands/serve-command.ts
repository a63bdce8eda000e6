import { Option } from 'commander';
import type { ServeOptions } from '../serve.ts';
import type { AddCommand } from './command.ts';

/** `leastwise serve`: the language server. */
export const serveCommand: AddCommand = (program, done) => {
  program
    .command('serve')
    .description('serve an editor that speaks the language server protocol')
    .option('--stdio', 'by standard input and output')
    .addOption(new Option('--node-ipc').hideHelp())
    // Editors name their process, so that the server ends with it.
    .addOption(new Option('--clientProcessId <number>').hideHelp())
    .action(async (options: ServeOptions) => {
      const { serve } = await import('../serve.ts');
      done(serve(options));
    });
};
