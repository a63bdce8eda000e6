import { Command, CommanderError } from 'commander';
import { version } from '../../../package.json';
import { checkCommand } from './commands/check-command.ts';
import type { AddCommand } from './commands/command.ts';
import { drawCommand } from './commands/draw-command.ts';
import { explainCommand } from './commands/explain-command.ts';
import { mergeCommand } from './commands/merge-command.ts';
import { renderCommand } from './commands/render-command.ts';
import { serveCommand } from './commands/serve-command.ts';
import { summaryCommand } from './commands/summary-command.ts';
import { workCommand } from './commands/work-command.ts';
import { complain, type ExitStatus } from './complain.ts';
import { settleWorkingFolder } from './working-folder.ts';

const EXAMPLES = `
Examples:
  leastwise check notes/                    every note in a folder
  leastwise check 'notes/**/set-*.md'       the notes that a pattern matches
  leastwise check q7.md --format json       the facts for another program
  leastwise check - --stdin-filename q7.md  a note from standard input
  leastwise summary notes/                  what the notes hold
  leastwise work q7.md#axle-sleeve          the worked solution of a block
  leastwise work q7.md --insert             written below every block
  leastwise draw q7.md --out figures        its scales as SVG files
  leastwise render q7.md --out site         the note, to be published
  leastwise explain wrong-value             what a rule means
  leastwise explain least count             what a term means

Exit status: 0 no errors, 1 errors found, 2 the work could not be done.
`;

/** In the order of the help. */
const COMMANDS: readonly AddCommand[] = [
  checkCommand,
  mergeCommand,
  summaryCommand,
  workCommand,
  drawCommand,
  renderCommand,
  explainCommand,
  serveCommand,
];

/** Runs the command line; gives the exit status. */
export async function main(words: readonly string[]): Promise<ExitStatus> {
  settleWorkingFolder();
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
  for (const addCommand of COMMANDS)
    addCommand(program, its => {
      status = its;
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

/** What a further thread of a run does; it has the bundle as its program and asks for this part of it. */
export async function noteThread(): Promise<typeof import('./bank/note-thread.ts').noteThread> {
  return (await import('./bank/note-thread.ts')).noteThread;
}

/** Commander's complaint as a sentence of ours: `error: unknown option '--colour'` loses its prefix and its stop. */
function plainSentence(complaint: string): string {
  return complaint
    .trim()
    .replace(/^error: |\.$/g, '')
    .replaceAll('\n', ' ');
}
