import { Command, CommanderError, Option } from 'commander';
import { version } from '../../../package.json';
import { checkNote } from '../checks/check.ts';
import { type CheckOptions, checkNotes, complain, type ExitStatus } from './check-notes.ts';
import type { DrawOptions } from './draw.ts';
import { configChoice } from './note-settings.ts';
import type { ServeOptions } from './serve.ts';
import type { WorkOptions } from './work.ts';

const EXAMPLES = `
Examples:
  leastwise check notes/                    every note in a folder
  leastwise check 'notes/**/set-*.md'       the notes that a pattern matches
  leastwise check q7.md --format json       the facts for another program
  leastwise check - --stdin-filename q7.md  a note from standard input
  leastwise work q7.md#axle-sleeve          the worked solution of a block
  leastwise work q7.md --insert             written below every block
  leastwise draw q7.md --out figures        its scales as SVG files
  leastwise render q7.md --out site         the note, to be published
  leastwise explain wrong-value             what a rule means
  leastwise explain least count             what a term means

Exit status: 0 no errors, 1 errors found, 2 the work could not be done.
`;

const CONFIG = 'the configuration; without it the nearest leastwise.config.json above each note';
const NO_CONFIG = 'look for no configuration';

/** Runs the command line; gives the exit status. */
export async function main(words: readonly string[]): Promise<ExitStatus> {
  let status: ExitStatus = 0;
  const program = new Command('leastwise')
    .description(
      'Checks what physics notes claim about divided scales (least counts, readings, zero corrections, errors) in the ```measurement blocks of Markdown, exactly.',
    )
    .version(version, '--version', 'say which version this is')
    .helpOption('--help', 'explain a command')
    .helpCommand(false)
    .addHelpText('after', EXAMPLES)
    .exitOverride()
    .configureOutput({ outputError: text => complain(plainSentence(text)) });

  program
    .command('check')
    .description('check notes and report what does not agree')
    .argument('[PATH...]', 'notes, folders or patterns; - for standard input')
    .addOption(new Option('--format <format>', 'how to report').choices(['pretty', 'json']).default('pretty'))
    .option('--waived', 'list waived findings too, with their reasons')
    .option('--stdin-filename <name>', 'what to call the note on standard input')
    .option('--config <file>', CONFIG)
    .option('--no-config', NO_CONFIG)
    .action(async (paths: string[], options: TypedOptions) => {
      status = await checkNotes(paths, checkOptions(options), checkNote);
    });

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
    .option('--stdin-filename <name>', 'what to call the note on standard input')
    .option('--config <file>', CONFIG)
    .option('--no-config', NO_CONFIG)
    .action(async (target: string, options: TypedWorkOptions) => {
      const { work } = await import('./work.ts');
      status = await work(target, workOptions(options));
    });

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
    .option('--stdin-filename <name>', 'what to call the note on standard input')
    .option('--config <file>', CONFIG)
    .option('--no-config', NO_CONFIG)
    .action(async (target: string, options: TypedDrawOptions) => {
      const { draw } = await import('./draw.ts');
      status = await draw(target, drawOptions(options));
    });

  program
    .command('render')
    .description('write a note as plain Markdown, with tables, workings and figures, to be published')
    .argument('<NOTE>', 'a note; - for standard input')
    .requiredOption('--out <dir>', 'the folder for the note; its figures go into a folder figures there')
    .option('--question', 'leave out all that gives the answers away')
    .option('--stdin-filename <name>', 'what to call the note on standard input')
    .option('--config <file>', CONFIG)
    .option('--no-config', NO_CONFIG)
    .action(async (target: string, options: TypedRenderOptions) => {
      const { render } = await import('./render.ts');
      const { out, question, stdinFilename, config } = options;
      status = await render(target, {
        ...{ out, question: question === true, stdinFilename: stdinFilename ?? null },
        config: configChoice(config),
      });
    });

  program
    .command('explain')
    .description('explain a rule, slip, term or instrument')
    .argument('[NAME...]', 'as in wrong-value, zero-correction-sign, least count; all names without one')
    .action(async (name: string[]) => {
      const { explain } = await import('./explain.ts');
      status = await explain(name.join(' '));
    });

  program
    .command('serve')
    .description('serve an editor that speaks the language server protocol')
    .option('--stdio', 'by standard input and output')
    .addOption(new Option('--node-ipc').hideHelp())
    // Editors name their process, so that the server ends with it.
    .addOption(new Option('--clientProcessId <number>').hideHelp())
    .action(async (options: ServeOptions) => {
      const { serve } = await import('./serve.ts');
      status = serve(options);
    });

  try {
    await program.parseAsync(words.map(asTarget), { from: 'user' });
    return status;
  } catch (error) {
    if (!(error instanceof CommanderError)) throw error;
    return error.exitCode === 0 ? 0 : 2;
  }
}

/** `-#q7`, a block of the note on standard input, would pass for an option; `#q7` says the same. */
function asTarget(word: string): string {
  return word.startsWith('-#') ? word.slice(1) : word;
}

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

interface TypedRenderOptions {
  readonly out: string;
  readonly question?: true;
  readonly stdinFilename?: string;
  readonly config?: string | boolean;
}

/** Commander's complaint as a sentence of ours: `error: unknown option '--colour'` loses its prefix and its stop. */
function plainSentence(complaint: string): string {
  return complaint
    .trim()
    .replace(/^error: |\.$/g, '')
    .replaceAll('\n', ' ');
}
